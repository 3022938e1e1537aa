import type { Branch, KitItem, PlannedFollowUp, PlannedMeasure, PlannedStep, SignalWord } from '../../procedure/plan-types.ts';
import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { FastenerPlace, Line, Spoken, UndoneThing } from '../lines.ts';
import { closingWords, matterWords, reasonWords } from './close-out-lines.ts';
import { duration, feminine } from './durations.ts';
import { failureWords } from './failure-lines.ts';
import { helpWords, taught } from './help-lines.ts';
import { insteadName, kitName } from './kit-names.ts';
import { unitName } from './lexicon.ts';
import { numbers } from './numbers.ts';
import { stepNumber } from './step-numbers.ts';
import { wrenchRemarkWords } from './wrench-remark-words.ts';
import { measured, shownNumber, text } from './text.ts';
import { positionWords, socket, toolList, wholeTool } from './tools.ts';
import { count, groupBegins, passBegins, passHead, torqueAnswer } from './torque-lines.ts';
import { typeset } from './typeset.ts';

/** Any line in French. No command stands alone between two pauses: the ear of another phone would obey it. */
export function say(said: Line): Spoken {
  const { say: aloud, show } = words(said);
  return { say: aloud.replace(/(?<=\b(?:dites|dire|raison)) : /giu, ' '), show: typeset(show) };
}

function words(said: Line): Spoken {
  switch (said.kind) {
    case 'welcome':
      return sentences(text(said.title), line`version : ${text(said.build)}`, text(said.source), line`étapes : ${count(said.steps)}`);
    case 'welcome-back':
      return sentences('Bon retour', text(said.title));
    case 'caution':
      return sentences(
        signalWords[said.caution.signal],
        text(said.caution.text),
        said.acknowledge ? `Dites : ${taught('done', 'briefing')}` : null,
      );
    case 'before':
      return sentences(
        said.of > 1 ? line`Avant de commencer, ${count(said.number)} sur ${count(said.of)}` : null,
        text(said.before.check),
        yesOrNo,
      );
    case 'before-not-true':
      return sentences("À remettre en ordre d'abord", text(said.before.check), 'Puis dites oui');
    case 'wrench-remarks':
      return wrenchRemarkWords(said.remarks);
    case 'kit-begins':
      return sentences(
        line`Liste du lot : ${some(said.items, 'article')}`,
        `Après chacun, dites : ${taught('done', 'kit')}, ou ${taught('missing')}`,
      );
    case 'kit-item':
      return sentences(kitItem(said.item), kitProgress(said.number, said.of), "L'avez-vous ou est-ce que ça manque?");
    case 'kit-missing':
      return sentences(line`sur la liste des manquants : ${kitName(said.item)}`);
    case 'confirm-kit-waved':
      return sentences(line`Laisser ${some(said.left, 'article')} du lot sans contrôle?`, yesOrNo);
    case 'confirm-leave-before':
      return sentences(text(said.before.check), line`Commencer sans, raison : ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'kit-done':
      return sentences(
        said.missing === 0 ? 'Le lot est complet' : line`Lot passé en revue. Sur la liste des manquants : ${count(said.missing)}`,
      );
    case 'step':
      return stepWords(said.step);
    case 'step-done':
      return sentences(line`étape ${stepNumber(said.step)} faite`);
    case 'side-begins':
      return sentences(line`travail annexe : ${text(said.side.title)}`);
    case 'side-ends':
      return sentences(line`travail annexe fini : ${text(said.side.title)}`, line`Retour à l'étape ${stepNumber(said.back)}`);
    case 'visiting':
      return sentences(
        'Regard en arrière',
        stepWords(said.step),
        `Dites : ${taught('carry-on')}, ou ${taught('do-it-now')} pour la reprendre`,
      );
    case 'visit-over':
      return sentences(line`retour à l'étape ${stepNumber(said.step)}`);
    case 'at-the-start':
      return sentences("C'est la première étape");
    case 'group':
      return groupBegins(said.place, said.unit);
    case 'pass':
      return passBegins(said.place, said.unit);
    case 'next-fastener':
      return sentences(line`suivante : ${positionOf(said.place)}`, line`reste : ${count(said.place.left)}`);
    case 'too-many':
      return sentences(
        line`vous avez dit ${count(said.said)}, il n'en reste ${said.left === 1 ? "qu'une" : line`que ${count(said.left)}`}`,
        'Combien sont faites?',
      );
    case 'torque':
      return torqueAnswer(said.group, said.pass, said.unit);
    case 'socket':
      return sentences(wholeTool(said.group.tool));
    case 'how-many':
      return sentences(line`${text(said.group.name)} : ${count(said.group.positions.length)}`);
    case 'how-many-left':
      return sentences(
        passHead(said.place.group, said.place.pass),
        line`reste : ${count(said.place.left)} sur ${count(said.place.group.positions.length)}`,
      );
    case 'which-next':
      return sentences(line`suivante : ${positionOf(said.place)}`);
    case 'where':
      return whereWords(said.step, said.place);
    case 'why':
      return sentences(said.step.why === null ? 'La procédure ne donne pas de raison' : text(said.step.why));
    case 'tools':
      return toolsWords(said.step);
    case 'which-step':
      return sentences(
        text(said.step.stage.title),
        line`Étape ${stepNumber(said.step)} sur ${digits(said.mainSteps)}`,
        line`encore ouvertes : ${countFeminine(said.stepsLeft)}`,
      );
    case 'no-cautions':
      return sentences('Pas de mise en garde pour cette étape');
    case 'no-fasteners-here':
      return sentences('Pas de fixation dans cette étape');
    case 'time-left':
      if (said.timers.length === 0) return sentences('Aucun minuteur en cours');
      return sentences(...said.timers.map((timer) => line`${text(timer.name)} : ${duration(timer.seconds)}`));
    case 'no-timer-here':
      return sentences("Il n'y a pas de minuteur ici");
    case 'hold':
      return sentences(text(said.hold.ask), yesOrNo);
    case 'hold-passed':
      return sentences('Contrôle réussi');
    case 'hold-failed':
      return sentences('Contrôle non réussi');
    case 'measure':
      return sentences(line`mesurer : ${text(said.measure.name)}`, limitsWords(said.measure), sayReading);
    case 'measure-read-back':
      return sentences(line`J'ai entendu ${measured(said.value, said.measure.unit, numbers.critical)}`, yesOrNo);
    case 'measure-wrong-unit':
      return sentences(line`Vous avez dit : ${unitWords(said.saidUnit)}. Il faut : ${unitWords(said.measure.unit)}`, sayReading);
    case 'measure-within':
      return sentences(line`dans les limites : ${measured(said.value, said.measure.unit, numbers.critical)}`);
    case 'measure-outside':
      return sentences(line`hors limites : ${measured(said.value, said.measure.unit, numbers.critical)}`, limitsWords(said.measure));
    case 'branch':
      return branchWords(said.branch, said.target, said.reopened);
    case 'stopped':
      return sentences('Travail arrêté');
    case 'stop-sign':
      return sentences(text(said.sign.ask), yesOrNo);
    case 'no-more-stop-signs':
      return sentences(
        "La procédure ne nomme pas d'autre signe d'arrêt. Trouvez ce qui vous a arrêté",
        `Quand c'est sûr, dites : ${taught('carry-on')}`,
      );
    case 'wait-started':
      return sentences(
        said.blocks ? 'Attendre' : 'Minuteur lancé, continuez pendant ce temps',
        line`${text(said.name)} : ${duration(said.seconds)}`,
      );
    case 'wait-over':
      return sentences(line`temps écoulé : ${text(said.name)}`);
    case 'wait-running':
      return sentences(line`${text(said.name)}, encore à attendre : ${duration(said.seconds)}`);
    case 'confirm-skip-step':
      return sentences(line`Sauter l'étape ${stepNumber(said.step)}, raison : ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'confirm-skip-fastener':
      return sentences(line`Laisser ${positionOf(said.place)}, raison : ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'confirm-finish':
      return sentences(
        said.openSteps === 0 ? null : line`étapes encore ouvertes : ${countFeminine(said.openSteps)}`,
        'Passer à la clôture?',
        yesOrNo,
      );
    case 'confirm-reopen':
      return sentences(line`Reprendre l'étape ${stepNumber(said.step)}? Elle comptera comme non faite`, yesOrNo);
    case 'confirm-cut-wait':
      return sentences(line`${text(said.name)} : encore ${duration(said.seconds)}. Abréger?`, yesOrNo);
    case 'confirm-sign':
      return sentences(line`Est-ce ${text(said.name)} qui signe?`, yesOrNo);
    case 'reason-asked':
      return sentences('Quelle en est la raison?', line`dites : ${helpWords(['reason'], 'reasoning')}`);
    case 'skipped-step':
      return sentences(line`étape ${stepNumber(said.step)} sautée`);
    case 'skipped-fastener':
      return sentences('Fixation omise');
    case 'dropped':
      return sentences('Abandonné. Rien ne change');
    case 'undone':
      return sentences(line`repris : ${undoneThings[said.what]}`);
    case 'nothing-to-undo':
      return sentences("Il n'y a rien à annuler");
    case 'paused':
      return sentences(`En pause. Pour reprendre, dites : ${taught('carry-on')}`);
    case 'resumed':
      return sentences('Le travail reprend');
    case 'note-asked':
      return sentences('Dites votre note', 'Pour demander quelque chose, commencez par : question');
    case 'photo-asked':
      return sentences("Photo. Tenez l'appareil immobile");
    case 'noted':
      return notedWords(said);
    case 'unit-chosen':
      return sentences(said.unit === null ? 'Couples dans les unités de la procédure' : line`Couples en ${unitName(said.unit)}`);
    case 'help':
      return sentences(line`Vous pouvez dire : ${helpWords(said.legal, null)}`);
    case 'not-understood':
      if (said.times >= 3) return sentences('Toujours pas compris. Utilisez les boutons, ou réécoutez');
      return sentences('Pas compris', line`Dites : ${helpWords(said.legal, null, said.times === 1 ? 3 : 6)}`);
    case 'not-now':
      return sentences(`Ici on ne peut pas dire : ${taught(said.intent)}`, line`Dites : ${helpWords(said.legal, null, 3)}`);
    case 'louder':
      return sentences('Plus fort');
    case 'quieter':
      return sentences('Moins fort');
    case 'slower':
      return sentences('Moins vite');
    case 'faster':
      return sentences('Plus vite');
    case 'closing-begins':
      return closingWords(said.open);
    case 'matter':
      return sentences(
        line`${count(said.number)} sur ${count(said.of)}`,
        matterWords(said.matter),
        line`dites : ${helpWords(['do-it-now', 'accept', 'leave-open'], 'closing')}`,
      );
    case 'matter-accepted':
      return sentences('Accepté, et au journal');
    case 'left-open':
      return sentences("Resté ouvert. Le travail n'est pas clos");
    case 'hand-over-begins':
      return sentences("Transmission. Choisissez fichier ou codes à l'écran");
    case 'handed-over':
      return sentences('Ce travail a été transmis', `Pour le reprendre ici, dites : ${taught('carry-on')}`);
    case 'sign-asked':
      if (said.name === null) return sentences('Qui signe? Dites : signer comme, et votre nom');
      return sentences(line`Est-ce ${text(said.name)} qui signe? Dites oui, ou signer comme un autre nom`);
    case 'signed':
      return sentences(
        line`signature : ${text(said.name)}`,
        said.exceptions === 0 ? 'Aucune réserve' : line`réserves : ${count(said.exceptions)}`,
      );
    case 'follow-up':
      return followUpWords(said.followUp);
    case 'confirm-follow-up':
      return sentences(followUpWords(said.followUp), 'Est-ce fait?', yesOrNo);
    case 'follow-up-logged':
      return sentences('Fait, et au journal', said.left === 0 ? 'Plus aucun suivi à faire' : line`suivis restants : ${count(said.left)}`);
    case 'closed':
      return sentences('Le travail est clos');
    case 'failure':
      return failureWords(said.code);
  }
}

function notedWords({ text: words, media }: Extract<Line, { kind: 'noted' }>): Spoken {
  if (media === 'photo') return sentences('Photo gardée');
  if (words === '') return sentences('Enregistrement gardé');
  return sentences(line`noté : ${text(words)}`);
}

const yesOrNo = 'Oui ou non?';
const sayReading = 'Dites : je lis, et la valeur';

const signalWords: Readonly<Record<SignalWord, string>> = {
  DANGER: 'Danger!',
  WARNING: 'Avertissement!',
  CAUTION: 'Attention!',
  NOTICE: 'Avis',
};

const undoneThings: Readonly<Record<UndoneThing, string>> = {
  fastener: 'la dernière fixation',
  step: 'la dernière étape',
  measure: 'la dernière valeur',
  hold: 'le dernier contrôle',
  skip: 'ce qui était laissé',
  caution: 'la dernière mise en garde',
  before: 'la dernière réponse',
  kit: 'le dernier article du lot',
  note: 'la dernière note',
  timer: 'le minuteur',
  back: 'le regard en arrière',
  reopen: 'la réouverture',
  finish: 'la clôture',
  accept: 'la dernière acceptation',
  'stop-sign': 'la dernière réponse',
};

function stepWords(step: PlannedStep): Spoken {
  return sentences(
    line`étape ${stepNumber(step)}`,
    text(step.say),
    step.helper === null ? null : line`il faut une aide : ${text(uncapitalised(step.helper))}`,
    step.optional === null ? null : line`facultatif : ${text(uncapitalised(step.optional))}`,
  );
}

function whereWords(step: PlannedStep, place: FastenerPlace | null): Spoken {
  if (step.where === null && place === null) return sentences('La procédure ne dit pas où');
  return sentences(place === null ? null : positionOf(place), step.where === null ? null : text(step.where));
}

function toolsWords(step: PlannedStep): Spoken {
  const tools: Spoken[] = step.groups.filter(({ tool }) => tool.kind !== 'hand').map(({ tool }) => wholeTool(tool));
  const all = [...tools, ...step.tools.map(text)];
  const once = all.filter(({ say: aloud }, index) => all.findIndex((one) => one.say === aloud) === index);
  if (once.length > 0) return sentences(toolList(once));
  return sentences(
    step.groups.length > 0 ? socket({ kind: 'hand', size: null, sizeUnit: null, square: null, reach: [] }) : "Pas d'outil pour cette étape",
  );
}

function kitItem(item: KitItem): Spoken {
  return sentences(
    item.count === 1 ? kitName(item) : line`${kitName(item)}, ${count(item.count)} pièces`,
    item.owned === false
      ? item.instead === null
        ? 'absent de votre servante'
        : line`absent de votre servante, prenez ${insteadName(item.instead)}`
      : null,
  );
}

/** Said now and then: a number before each item would be taken for one of its own. */
function kitProgress(number: number, of: number): Part {
  if (number === of) return of > 1 ? 'Le dernier' : null;
  return number % 10 === 0 ? line`reste : ${count(of - number)}` : null;
}

function limitsWords(measure: PlannedMeasure): Part {
  const { min, max, unit } = measure;
  if (min !== null && max !== null) return line`admis : de ${figure(min)} à ${measured(max, unit, numbers.plain)}`;
  if (max !== null) return line`au plus ${measured(max, unit, numbers.plain)}`;
  return min === null ? null : line`au moins ${measured(min, unit, numbers.plain)}`;
}

function branchWords(branch: Branch, target: PlannedStep | null, reopened: number): Spoken {
  return sentences(
    branch.advice === null ? null : text(branch.advice),
    branch.kind === 'go' && target !== null ? line`aller à l'étape ${stepNumber(target)}` : null,
    reopened === 0 ? null : line`étapes rouvertes : ${count(reopened)}`,
  );
}

function followUpWords({ say: what, after }: PlannedFollowUp): Spoken {
  switch (after.kind) {
    case 'distance':
      return sentences(line`après ${measured(after.value, after.unit, numbers.critical)} : ${text(what)}`);
    case 'time': {
      const days = after.hours / 24;
      return sentences(
        line`après ${Number.isInteger(days) && days > 1 ? some(days, 'jour') : someFeminine(after.hours, 'heure')} : ${text(what)}`,
      );
    }
    case 'count':
      return sentences(line`après ${count(after.count)} ${text(after.of)} : ${text(what)}`);
  }
}

function unitWords(unit: string): Spoken {
  return { say: measured(2, unit, () => '').say, show: unit };
}

function uncapitalised(sentence: string): string {
  return sentence.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}

function positionOf(place: FastenerPlace): Spoken {
  return positionWords(place.group.positions[place.position]);
}

function some(howMany: number, name: string): Spoken {
  return line`${count(howMany)} ${name}${howMany < 2 ? '' : 's'}`;
}

function countFeminine(howMany: number): Spoken {
  return { say: feminine(howMany), show: String(howMany) };
}

function someFeminine(howMany: number, name: string): Spoken {
  return line`${countFeminine(howMany)} ${name}${howMany < 2 ? '' : 's'}`;
}

function digits(value: number): Spoken {
  return { say: numbers.digits(value), show: String(value) };
}

function figure(value: number): Spoken {
  return { say: numbers.plain(value), show: shownNumber(value) };
}
