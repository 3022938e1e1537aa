import { typesetWords } from '../../words/typeset-words.ts';
import type { ToolsWords } from './en.ts';

export const fr: ToolsWords = typesetWords<ToolsWords>({
  empty: 'Rien n’est encore rempli. D’ici là, chaque travail liste ce qu’il faut sans savoir ce que vous avez.',
  begin: [
    'Commencez par vos clés dynamométriques : la plage et le pas sont sur le corps, la date sur le certificat d’étalonnage.',
    'Ajoutez ensuite les douilles et les embouts que vous sortiriez.',
  ],
  example: 'Une clé marquée 40–200 N·m avec un trait tous les 1 N·m a 40 pour premier repère, 200 pour dernier et une graduation de 1.',
  removed: (what: string) => `Enlevé : ${what}.`,
  tookIn: (file: string) => `${file} a pris la place de ce qui était rempli ici.`,
  takeBack: 'Revenir en arrière',
  notTaken: (file: string) => `${file} n’a pas été repris. Rien n’est changé.`,
  at: (drawer: string, number: number, field: string) => `${drawer}, numéro ${number}, ${field}`,
  problem: (where: string, fault: string) => (where === '' ? fault : `${where} : ${fault}`),
  clicks: (counted: number, total: number, limit: number) =>
    `${counted} déclenchements comptés d’après les travaux de cet appareil depuis l’étalonnage, ${total} en tout ; à refaire à ${limit}.`,
  due: (date: string) => `Étalonnage à refaire le ${date}.`,
  calibratedToday: 'Étalonnée aujourd’hui',
  rules: 'Règles',
  rulesAbout: 'Quand avertir. Les limites des carrés sont données de mémoire, aucune norme : mettez les vôtres. Vide : pas de limite.',
  calibrationMonths: 'Mois entre deux étalonnages',
  calibrationOperations: 'Déclenchements entre deux étalonnages',
  usableFrom: 'Utilisable à partir de, % du dernier repère',
  squareLimit: (square: string) => `Maximum pour un carré de ${square}, N·m`,
});
