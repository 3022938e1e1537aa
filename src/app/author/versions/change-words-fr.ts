import type { ChangeWords } from './change-words-en.ts';

const fields: Readonly<Record<string, string>> = {
  title: 'titre',
  vehicle: 'véhicule',
  source: 'source',
  author: 'auteur',
  revision: 'révision',
  language: 'langue',
  invented: 'mention « valeurs inventées »',
  do: 'phrase',
  why: 'raison',
  where: 'endroit',
  name: 'nom',
  count: 'nombre',
  thread: 'filetage',
  class: 'classe de qualité',
  drive: 'entraînement',
  square: 'carré d’entraînement',
  reach: 'accès',
  torque: 'couple',
  angle: 'angle',
  order: 'ordre de serrage',
  passes: 'passes',
  positions: 'noms des positions',
  layout: 'disposition',
  condition: 'état du filetage',
  'single use': 'usage unique',
  part: 'pièce',
  for: 'durée',
  ask: 'question',
  answer: 'réponse',
  check: 'condition',
  signal: 'mot d’avertissement',
  text: 'texte',
  say: 'texte',
  after: 'moment',
  tools: 'outils',
  uses: 'fournitures employées',
  free: 'liberté du moment',
  optional: 'raison de l’omettre',
  helper: 'tâche de la seconde personne',
  see: 'procédure annexe',
  go: 'étape suivante',
  advice: 'conseil',
  unit: 'unité',
  min: 'valeur minimale',
  max: 'valeur maximale',
  only: 'versions concernées',
  builds: 'versions',
  id: 'identifiant',
};

const lists: Readonly<Record<string, string>> = {
  measure: 'la mesure',
  hold: 'le contrôle',
  'stop signs': 'le signe d’arrêt',
  cautions: 'l’avertissement',
  before: 'la condition préalable',
  parts: 'la pièce',
  consumables: 'le consommable',
  supports: 'le support',
  afterwards: 'le suivi',
  wait: 'l’attente',
  'open questions': 'la question ouverte',
  evidence: 'la preuve pour',
  'if no': 'l’issue quand la réponse est non',
  'if yes': 'l’issue quand la réponse est oui',
  'if outside': 'l’issue hors des limites',
  builds: 'les versions',
};

const deeds = { added: 'ajout', removed: 'retrait', moved: 'déplacement' } as const;

/** The words for changes between two versions, in French. Nouns for what happened, so that nothing has to agree in gender. */
export const changeWordsFr: ChangeWords = {
  procedure: 'la procédure',
  stage: (number, title) => `Phase ${number}${title === '' ? '' : ` « ${title} »`}`,
  side: (title) => `Procédure annexe « ${title} »`,
  step: (number, side) => (side === null ? `Étape ${number}` : `Procédure annexe « ${side} », étape ${number}`),
  entry: (list, name) => (list === 'fasteners' ? `« ${name} »` : `${lists[list] ?? `« ${list} »`}${name === '' ? '' : ` « ${name} »`}`),
  within: (own, inner) => `${own}, dans ${inner}`,
  field: (key, of) => `${fields[key] ?? key}${of === null ? '' : ` (${of})`}`,
  onBuild: (build) => `, version ${build}`,
  otherBuilds: ', autres versions',
  happened: (what, how, steps) =>
    `${deeds[how]} : ${what}${steps === null || steps === 0 ? '' : steps === 1 ? ', avec son étape' : `, avec ses ${steps} étapes`}`,
  changed: (field, from, to) =>
    from === null
      ? `${field} : ajout de ${to ?? 'rien'}`
      : to === null
        ? `${field} : retrait (c’était ${from})`
        : `${field} : ${from} devient ${to}`,
  quoted: (text) => `« ${text} »`,
  number: (value) => value.toLocaleString('fr', { useGrouping: false, maximumFractionDigits: 6 }),
  yes: 'oui',
  no: 'non',
  nothing: 'rien',
};
