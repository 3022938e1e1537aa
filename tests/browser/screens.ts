/** The screens that can be gone to without a job, by address, and the heading of each in every language. */
export const screens = [
  { path: '', en: 'Undertray', fr: 'Undertray' },
  { path: 'settings', en: 'Settings', fr: 'Réglages' },
  { path: 'tools', en: 'My tools', fr: 'Mes outils' },
  { path: 'calculator', en: 'Calculator', fr: 'Calculateur' },
  { path: 'author', en: 'Write a procedure', fr: 'Écrire une procédure' },
  { path: 'review', en: 'Review', fr: 'Bilan' },
  { path: 'take-in', en: 'Take in a job', fr: 'Recevoir un travail' },
  { path: 'enrol', en: 'Get used to my voice', fr: 'S’habituer à ma voix' },
  { path: 'kit/bench-flange-fr.yaml/K', en: 'Kit list', fr: 'Liste du lot' },
] as const;
