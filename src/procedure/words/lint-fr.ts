import { formatNumber } from '../../torque/numbers.ts';
import type { Torque } from '../../torque/quantities.ts';
import type { ProblemCode } from '../problem.ts';
import { faultInFrench } from './faults-fr.ts';
import type { LintWords, Prompt } from '../told.ts';

/** What the lint tells, in French. The words of the file format stay as they are written in the file. */
export const lintInFrench: LintWords = (told) => {
  switch (told.code) {
    case 'no-torque':
      return {
        message: `« ${told.fastener} » n'a pas de couple : à la question, la réponse sera de voir le manuel du constructeur.`,
        advice: 'Donner le couple de la source, « passes: [snug] » s’il n’y en a pas ici, ou « drive: hand ».',
      };
    case 'no-drive':
      return {
        message: `« ${told.fastener} » a un couple, mais rien ne dit quelle douille l'entraîne.`,
        advice: 'Ajouter « drive: », par exemple « drive: hex 13 ».',
      };
    case 'thread-unreadable':
      return {
        message: `Le filetage « ${told.found} » ne peut pas être contrôlé.`,
        advice: `Écrire ${faultInFrench(told).expected}.`,
      };
    case 'torque-too-low':
    case 'torque-too-high': {
      const kind = `${told.thread} de classe ${told.strength}${told.assumed ? ' (aucune classe n’est donnée)' : ''}`;
      const share = `${told.percent} % de sa charge d'épreuve, par calcul`;
      const range = `de ${torque(told.plausible.low)} à ${torque(told.plausible.high)}`;
      return told.code === 'torque-too-low'
        ? {
            message: `${torque(told.torque)} laisse ${kind} pratiquement desserré : ${share}.`,
            advice: `Vérifier la valeur dans la source ; environ ${range} serait plausible.`,
          }
        : {
            message: `${torque(told.torque)}, c'est ${told.impossible ? 'plus que ne supporte' : 'beaucoup pour'} ${kind} : ${share}.`,
            advice: `Vérifier la valeur, le filetage et la classe ; environ ${range} serait plausible.`,
          };
    }
    case 'socket-misfit':
      return {
        message: `${told.drive} ${told.size} ne correspond à aucune norme pour ${told.thread}.`,
        advice: `Mesurer, ou vérifier le filetage : les normes donnent ${told.usual.join(', ')}.`,
      };
    case 'drive-overloaded':
      return {
        message: `${torque(told.torque)}, c'est plus qu'un carré de ${told.square} n'est réputé supporter.`,
        advice: 'Demander le carré au-dessus.',
      };
    case 'tolerance-too-tight':
      return {
        message: `La tolérance de « ${told.fastener} » est de ±${number(told.percent)} %, plus serrée que les ±${told.held} % d'une clé ordinaire.`,
        advice: 'L’élargir si la source le permet, ou nommer la clé spéciale sous « tools ».',
      };
    case 'no-passes':
      return {
        message: `Les ${told.count} × ${told.fastener} se serrent ${told.order === 'cross' ? 'en croix' : 'depuis le milieu'}, mais d'un coup au couple final.`,
        advice: 'Si la source donne des passes, les écrire : « passes: [30%, 65%, 100%, check] ».',
      };
    case 'build-forgotten':
      return {
        message: `Rien n'est dit ici pour la version ${told.builds.join(', ')}.`,
        advice: `Ajouter « build ${told.builds[0] ?? ''}: … », le laisser vide si c'est voulu, ou écrire « other builds: … ».`,
      };
    case 'unreachable-side':
      return {
        message: `Rien ne mène à la procédure annexe « ${told.side} » : ses étapes ne seront jamais atteintes.`,
        advice: `L'appeler avec « see: ${told.side} » là où elle a sa place, ou l'enlever.`,
      };
    case 'sounds-alike':
      return {
        message: `L'étape ${told.number} ${told.same ? 'a la même phrase que' : 'sonne comme'} l'étape ${told.first}, « ${told.sentence} »`,
        advice: 'Dire ce qui les distingue : le côté, l’endroit ou le moment.',
      };
    case 'too-long-to-hear':
      return {
        message: `${prompts[told.what]} compte ${told.words} mots ; au-delà de ${told.allowed}, on ne retient plus à l'oreille.`,
        advice: 'Raccourcir, couper l’étape en deux, ou déplacer les raisons dans « why ».',
      };
    case 'single-use-part-missing':
      return {
        message: `« ${told.fastener} » est à usage unique, mais la liste des pièces n'en prévoit pas de neuf.`,
        advice: `L'ajouter à « parts » avec un nombre d'au moins ${told.count}, et le nommer ici avec « part: ».`,
      };
    case 'too-few-parts':
      return {
        message: `La liste des pièces prévoit ${told.count} × ${told.part}, mais il en faut ${told.needed}.`,
        advice: `Mettre ${told.needed}, ou corriger les nombres d'éléments à serrer.`,
      };
    case 'supply-unused':
      return {
        message: `Aucune étape ne dit qu'elle utilise « ${told.name} ».`,
        advice: `Le nommer sous « uses: [${told.id}] » dans l'étape concernée, pour que la liste du lot dise quand.`,
      };
    case 'hold-without-way-out':
      return {
        message: `Le point d'arrêt « ${told.ask} » ne dit pas ce qui suit un « non ».`,
        advice: 'Ajouter « if no: » avec un conseil, une étape où aller ou une procédure annexe.',
      };
    case 'measure-without-limits':
      return {
        message: `La mesure « ${told.name} » n'a ni min ni max : aucune valeur ne peut être jugée.`,
        advice: 'Donner les limites, ou demander plutôt une note.',
      };
    case 'measure-without-way-out':
      return {
        message: `La mesure « ${told.name} » ne dit pas ce qui suit une valeur hors limites.`,
        advice: 'Ajouter « if outside: » avec un conseil, une étape où aller ou une procédure annexe.',
      };
    case 'jack-without-support':
      return {
        message: 'Un cric est nommé, mais rien qui tienne la charge une fois levée.',
        advice: 'Ajouter les chandelles ou les cales à « supports », et une étape qui les pose avant que quiconque passe dessous.',
      };
    default: {
      const { found, expected } = faultInFrench(told);
      return {
        message: `Trouvé : ${found} ; attendu : ${expected}.`,
        advice: remedies[told.code] ?? 'À corriger : aucun travail ne peut être préparé en l’état.',
      };
    }
  }
};

const prompts: Readonly<Record<Prompt, string>> = {
  caution: 'La mise en garde',
  check: 'Le contrôle préalable',
  sentence: 'La phrase',
  why: 'Le « why »',
  where: 'Le « where »',
  question: 'La question',
};

const remedies: Partial<Record<ProblemCode, string>> = {
  'duplicate-id': 'Donner un autre id à l’un des deux. Les journaux se comparent par lui.',
  'dangling-step': 'Corriger le nom, ou ajouter l’étape. Une procédure annexe s’appelle avec « see ».',
  'dangling-side': 'Corriger le nom, ou ajouter la procédure annexe sous « sides ».',
  'dangling-supply': 'Corriger le nom, ou l’ajouter à parts, consumables ou supports.',
  'side-in-circles': 'Que l’une donne un conseil au lieu d’appeler l’autre.',
  'count-mismatch': 'Corriger le nombre, ou nommer chaque position.',
  'duplicate-position': 'Nommer chaque position de façon à la distinguer des autres à l’oreille.',
  'layout-mismatch': 'Corriger le nombre ou la disposition.',
  'bad-passes': 'Faire monter les couples jusqu’au dernier, les angles et le dernier contrôle après.',
  'angle-mismatch': 'Enlever « angle » là où les passes donnent les angles.',
};

function number(value: number): string {
  return formatNumber(value).replace('.', ',');
}

function torque({ value, unit }: Torque): string {
  return `${number(value)} ${unit}`;
}
