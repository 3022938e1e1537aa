import { typesetWords } from '../../words/typeset-words.ts';
import type { KitWords } from './en.ts';

export const fr: KitWords = typesetWords<KitWords>({
  title: 'Liste du lot',
  build: (id: string, name: string) => `Version ${id} : ${name}`,
  print: 'Imprimer',
  wholeJob: 'Pour tout le travail',
  from: (stage: string, step: string) => `${stage}, à partir de l’étape ${step}`,
  side: (title: string) => `Au besoin : ${title}`,
  steps: (numbers: string, count: number) => (count === 1 ? `étape ${numbers}` : `étapes ${numbers}`),
  single: 'à usage unique',
  lacking: 'absent de vos outils',
  instead: (what: string) => `absent de vos outils ; ferait l’affaire : ${what}`,
  owned: 'parmi vos outils',
  noCrib: 'Remplissez « Mes outils », et cette liste dira quelle clé régler à combien, ce qui vous manque et ce qui le remplacerait.',
  complete: 'Tout ce qu’une servante peut contenir s’y trouve.',
  lacks: (count: number) => (count === 1 ? 'Une chose manque parmi vos outils.' : `${count} choses manquent parmi vos outils.`),
  changes: (count: number) => `Changements d’outil dans l’ordre écrit : ${count}.`,
  fewer: (count: number, moved: string) => `${count} de moins si ces étapes, libres de bouger, sont prises ailleurs : ${moved}.`,
  order: (numbers: string) => `Ordre proposé : ${numbers}`,
  none: 'Cette procédure n’est pas sur cet appareil.',
  loading: 'La liste se prépare…',
});
