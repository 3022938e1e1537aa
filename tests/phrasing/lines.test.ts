import { describe, expect, it } from 'vitest';
import type { KitItem, PlannedFollowUp } from '../../src/procedure/plan-types.ts';
import type { IntentName } from '../../src/phrasing/intents.ts';
import { languages } from '../../src/phrasing/language.ts';
import type { Language } from '../../src/phrasing/language.ts';
import type { Line, Matter } from '../../src/phrasing/lines.ts';
import { say } from '../../src/phrasing/say.ts';
import { group, measure, step } from './samples.ts';

// What a line leaves out, counts or joins when something is missing, single or many, as a person hears it.

const english = {
  check: 'The battery is disconnected.',
  gasket: 'gasket',
  cork: 'a cork ring',
  under: 'Under the crossmember.',
  gauge: 'feeler gauges',
  scraper: 'a scraper',
  curing: 'curing',
  cooling: 'cooling',
  gap: 'flange gap',
  wipe: 'Wipe again.',
  ordered: 'it is on order',
  torque: 'Check the torque.',
  starts: 'starts',
  bolt: 'carrier bolt',
  turns: 'Does it turn freely?',
  right: 'Is the seal right?',
};
type Words = typeof english;
const french: Words = {
  check: 'La batterie est débranchée.',
  gasket: 'joint',
  cork: 'un joint en liège',
  under: 'Sous la traverse.',
  gauge: "jauges d'épaisseur",
  scraper: 'un grattoir',
  curing: 'prise',
  cooling: 'refroidissement',
  gap: 'jeu de la bride',
  wipe: 'Essuyer de nouveau.',
  ordered: 'elle est commandée',
  torque: 'Contrôler le couple.',
  starts: 'démarrages',
  bolt: 'vis du support',
  turns: 'Tourne-t-il librement ?',
  right: 'Le joint est-il bon ?',
};

const before = (w: Words, number: number, of: number): Line => ({
  kind: 'before',
  before: { id: 'b', kind: 'condition', check: w.check },
  number,
  of,
});
const item = (w: Words, parts: Partial<KitItem> = {}): KitItem => ({
  id: 'i',
  kind: 'part',
  name: w.gasket,
  count: 1,
  steps: [],
  singleUse: false,
  owned: null,
  instead: null,
  ...parts,
});
const byHand = { kind: 'hand', size: null, sizeUnit: null, square: null, reach: [] } as const;
const asking: readonly IntentName[] = ['help', 'why', 'where', 'repeat', 'socket', 'torque', 'done'];
const followUp = (w: Words, after: PlannedFollowUp['after']): Line => ({ kind: 'follow-up', followUp: { id: 'f', say: w.torque, after } });
const turns = (w: Words) => ({ id: 'h', ask: w.turns, fail: { kind: 'stay', advice: w.wipe } }) as const;
type WithoutId<Of> = Of extends { readonly id: string } ? Omit<Of, 'id'> : never;
const matter = (one: WithoutId<Matter>): Line => ({ kind: 'matter', matter: { id: 'm', ...one }, number: 1, of: 3 });

const rows: readonly (readonly [what: string, line: (w: Words) => Line, en: string, fr: string])[] = [
  [
    'one condition is not counted',
    (w) => before(w, 1, 1),
    'The battery is disconnected. Yes or no?',
    'La batterie est débranchée. Oui ou non?',
  ],
  [
    'of several conditions each is',
    (w) => before(w, 2, 3),
    'Before starting, two of three. The battery is disconnected. Yes or no?',
    'Avant de commencer, deux sur trois. La batterie est débranchée. Oui ou non?',
  ],
  [
    'a kit of one',
    () => ({ kind: 'kit-begins', items: 1 }),
    "Kit list: one item. After each, say I have it, or it's missing.",
    "Liste du lot : un article. Après chacun, dites oui je l'ai, ou ça manque.",
  ],
  [
    'a kit of two',
    () => ({ kind: 'kit-begins', items: 2 }),
    "Kit list: two items. After each, say I have it, or it's missing.",
    "Liste du lot : deux articles. Après chacun, dites oui je l'ai, ou ça manque.",
  ],
  [
    'the only thing of the kit',
    (w) => ({ kind: 'kit-item', item: item(w), number: 1, of: 1 }),
    'Gasket. Have you got it or is it missing?',
    "Joint. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'the last, of which two are wanted',
    (w) => ({ kind: 'kit-item', item: item(w, { count: 2 }), number: 3, of: 3 }),
    'Gasket, two of them. The last one. Have you got it or is it missing?',
    "Joint, deux pièces. Le dernier. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'every tenth tells what is left',
    (w) => ({ kind: 'kit-item', item: item(w), number: 10, of: 14 }),
    'Gasket. Left: four. Have you got it or is it missing?',
    "Joint. Reste : quatre. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'no other does',
    (w) => ({ kind: 'kit-item', item: item(w), number: 9, of: 14 }),
    'Gasket. Have you got it or is it missing?',
    "Joint. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'one that the person does not own',
    (w) => ({ kind: 'kit-item', item: item(w, { owned: false }), number: 1, of: 4 }),
    'Gasket. Not in your crib. Have you got it or is it missing?',
    "Joint. Absent de votre servante. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'one that something else can stand for',
    (w) => ({ kind: 'kit-item', item: item(w, { owned: false, instead: w.cork }), number: 1, of: 4 }),
    'Gasket. Not in your crib, use a cork ring. Have you got it or is it missing?',
    "Joint. Absent de votre servante, prenez un joint en liège. L'avez-vous ou est-ce que ça manque?",
  ],
  [
    'one that is owned needs nothing instead',
    (w) => ({ kind: 'kit-item', item: item(w, { owned: true, instead: w.cork }), number: 1, of: 4 }),
    'Gasket. Have you got it or is it missing?',
    "Joint. L'avez-vous ou est-ce que ça manque?",
  ],
  ['nothing missing', () => ({ kind: 'kit-done', missing: 0 }), 'Kit complete.', 'Le lot est complet.'],
  [
    'something missing',
    () => ({ kind: 'kit-done', missing: 2 }),
    'Kit list done. On the missing list: two.',
    'Lot passé en revue. Sur la liste des manquants : deux.',
  ],
  [
    'one thing waved through',
    () => ({ kind: 'confirm-kit-waved', left: 1 }),
    'Leave one kit item unchecked? Yes or no?',
    'Laisser un article du lot sans contrôle? Oui ou non?',
  ],
  [
    'several waved through',
    () => ({ kind: 'confirm-kit-waved', left: 3 }),
    'Leave three kit items unchecked? Yes or no?',
    'Laisser trois articles du lot sans contrôle? Oui ou non?',
  ],
  [
    'one left, four counted',
    () => ({ kind: 'too-many', said: 4, left: 1 }),
    'You said four, but only one is left. How many are done?',
    "Vous avez dit quatre, il n'en reste qu'une. Combien sont faites?",
  ],
  [
    'two left, four counted',
    () => ({ kind: 'too-many', said: 4, left: 2 }),
    'You said four, but only two are left. How many are done?',
    "Vous avez dit quatre, il n'en reste que deux. Combien sont faites?",
  ],
  [
    'no reason given',
    () => ({ kind: 'why', step: step({ why: null }) }),
    'The procedure gives no reason.',
    'La procédure ne donne pas de raison.',
  ],
  [
    'no place given',
    () => ({ kind: 'where', step: step({ where: null }), place: null }),
    'The procedure does not say where.',
    'La procédure ne dit pas où.',
  ],
  [
    'the place of the step',
    (w) => ({ kind: 'where', step: step({ where: w.under }), place: null }),
    'Under the crossmember.',
    'Sous la traverse.',
  ],
  [
    'the place of the fastener alone',
    () => ({ kind: 'where', step: step({ where: null }), place: { group: group(), pass: 0, position: 0, left: 1 } }),
    "Number one, at twelve o'clock.",
    'Numéro un, à douze heures.',
  ],
  [
    'the places of both',
    (w) => ({ kind: 'where', step: step({ where: w.under }), place: { group: group(), pass: 0, position: 0, left: 1 } }),
    "Number one, at twelve o'clock. Under the crossmember.",
    'Numéro un, à douze heures. Sous la traverse.',
  ],
  [
    'no tools',
    () => ({ kind: 'tools', step: step({ groups: [], tools: [] }) }),
    'No tools for this step.',
    "Pas d'outil pour cette étape.",
  ],
  [
    'tools that are hands',
    () => ({ kind: 'tools', step: step({ groups: [group({ tool: byHand })], tools: [] }) }),
    'By hand.',
    'À la main.',
  ],
  [
    'one tool for two groups, and two more',
    (w) => ({ kind: 'tools', step: step({ groups: [group(), group()], tools: [w.gauge, w.scraper] }) }),
    'One seven, seventeen millimetre socket, half inch drive, one five zero millimetre extension, universal joint, feeler gauges and a scraper.',
    "Douille de un sept, dix-sept millimètres, carré un demi, rallonge de un cinq zéro millimètres, cardan, jauges d'épaisseur et un grattoir.",
  ],
  ['no timer', () => ({ kind: 'time-left', timers: [] }), 'No timer is running.', 'Aucun minuteur en cours.'],
  [
    'two timers',
    (w) => ({
      kind: 'time-left',
      timers: [
        { name: w.curing, seconds: 90 },
        { name: w.cooling, seconds: 3600 },
      ],
    }),
    'Curing: one minute thirty. Cooling: one hour.',
    'Prise : une minute trente. Refroidissement : une heure.',
  ],
  [
    'limits on both sides',
    (w) => ({ kind: 'measure', measure: measure({ name: w.gap }) }),
    'Measure: flange gap. Allowed: one point eight to two point two millimetres. Say reading, and the value.',
    'Mesurer : jeu de la bride. Admis : de un virgule huit à deux virgule deux millimètres. Dites je lis, et la valeur.',
  ],
  [
    'a limit above',
    (w) => ({ kind: 'measure', measure: measure({ name: w.gap, min: null }) }),
    'Measure: flange gap. At most two point two millimetres. Say reading, and the value.',
    'Mesurer : jeu de la bride. Au plus deux virgule deux millimètres. Dites je lis, et la valeur.',
  ],
  [
    'a limit below',
    (w) => ({ kind: 'measure', measure: measure({ name: w.gap, max: null }) }),
    'Measure: flange gap. At least one point eight millimetres. Say reading, and the value.',
    'Mesurer : jeu de la bride. Au moins un virgule huit millimètre. Dites je lis, et la valeur.',
  ],
  [
    'no limits',
    (w) => ({ kind: 'measure', measure: measure({ name: w.gap, min: null, max: null }) }),
    'Measure: flange gap. Say reading, and the value.',
    'Mesurer : jeu de la bride. Dites je lis, et la valeur.',
  ],
  [
    'back to a step, with two open again',
    (w) => ({ kind: 'branch', branch: { kind: 'go', step: 'x', advice: w.wipe }, target: step(), reopened: 2 }),
    'Wipe again. Go to step one three. Steps open again: two.',
    "Essuyer de nouveau. Aller à l'étape un trois. Étapes rouvertes : deux.",
  ],
  [
    'on to a step, without advice',
    () => ({ kind: 'branch', branch: { kind: 'go', step: 'x', advice: null }, target: step(), reopened: 0 }),
    'Go to step one three.',
    "Aller à l'étape un trois.",
  ],
  [
    'advice to stay',
    (w) => ({ kind: 'branch', branch: { kind: 'stay', advice: w.wipe }, target: null, reopened: 0 }),
    'Wipe again.',
    'Essuyer de nouveau.',
  ],
  [
    'a wait that blocks',
    (w) => ({ kind: 'wait-started', name: w.curing, seconds: 90, blocks: true }),
    'Wait. Curing: one minute thirty.',
    'Attendre. Prise : une minute trente.',
  ],
  [
    'a wait beside the work',
    (w) => ({ kind: 'wait-started', name: w.curing, seconds: 90, blocks: false }),
    'Timer started, go on meanwhile. Curing: one minute thirty.',
    'Minuteur lancé, continuez pendant ce temps. Prise : une minute trente.',
  ],
  [
    'a reason',
    () => ({ kind: 'confirm-skip-step', step: step(), reason: 'no-part', text: null }),
    'Skip step one three, reason part missing? Yes or no?',
    "Sauter l'étape un trois, raison pièce manquante? Oui ou non?",
  ],
  [
    'a reason with words of their own',
    (w) => ({ kind: 'confirm-skip-step', step: step(), reason: 'no-part', text: w.ordered }),
    'Skip step one three, reason part missing: it is on order? Yes or no?',
    "Sauter l'étape un trois, raison pièce manquante : elle est commandée? Oui ou non?",
  ],
  [
    'another reason is its words',
    (w) => ({ kind: 'confirm-skip-step', step: step(), reason: 'other', text: w.ordered }),
    'Skip step one three, reason it is on order? Yes or no?',
    "Sauter l'étape un trois, raison elle est commandée? Oui ou non?",
  ],
  [
    'nothing open at the end',
    () => ({ kind: 'confirm-finish', openSteps: 0 }),
    'Begin the close-out? Yes or no?',
    'Passer à la clôture? Oui ou non?',
  ],
  [
    'one step open at the end',
    () => ({ kind: 'confirm-finish', openSteps: 1 }),
    'Steps still open: one. Begin the close-out? Yes or no?',
    'Étapes encore ouvertes : une. Passer à la clôture? Oui ou non?',
  ],
  [
    'two steps open at the end',
    () => ({ kind: 'confirm-finish', openSteps: 2 }),
    'Steps still open: two. Begin the close-out? Yes or no?',
    'Étapes encore ouvertes : deux. Passer à la clôture? Oui ou non?',
  ],
  ['a photo', () => ({ kind: 'noted', text: '', media: 'photo' }), 'Photo kept.', 'Photo gardée.'],
  ['a recording', () => ({ kind: 'noted', text: '', media: 'audio' }), 'Recording kept.', 'Enregistrement gardé.'],
  ['a note in words', (w) => ({ kind: 'noted', text: w.ordered, media: null }), 'Noted: it is on order.', 'Noté : elle est commandée.'],
  [
    'the units of the source',
    () => ({ kind: 'unit-chosen', unit: null }),
    'Torques in the units of the procedure.',
    'Couples dans les unités de la procédure.',
  ],
  ['another unit', () => ({ kind: 'unit-chosen', unit: 'lbf·ft' }), 'Torques in foot pounds.', 'Couples en livres pieds.'],
  [
    'not understood once',
    () => ({ kind: 'not-understood', legal: asking, times: 1 }),
    "Not understood. Say that's done or what torque or which socket.",
    'Pas compris. Dites opération faite ou couple de serrage ou quelle douille mettre.',
  ],
  [
    'not understood twice',
    () => ({ kind: 'not-understood', legal: asking, times: 2 }),
    "Not understood. Say that's done or what torque or which socket or say again or where is it or tell me why.",
    'Pas compris. Dites opération faite ou couple de serrage ou quelle douille mettre ou encore une fois ou à quel endroit ou explique pourquoi.',
  ],
  [
    'not understood with two things to say',
    () => ({ kind: 'not-understood', legal: ['done', 'torque'], times: 1 }),
    "Not understood. Say that's done or what torque.",
    'Pas compris. Dites opération faite ou couple de serrage.',
  ],
  [
    'not to be done here',
    () => ({ kind: 'not-now', intent: 'done', legal: ['carry-on', 'number', 'sign'] }),
    "Here you cannot say that's done. Say reading, and the value or sign as, and a name or carry on.",
    'Ici on ne peut pas dire opération faite. Dites je lis, et la valeur ou signer comme, et un nom ou on continue.',
  ],
  ['nothing open at close-out', () => ({ kind: 'closing-begins', open: [] }), 'Close-out. Nothing is open.', "Clôture. Rien n'est ouvert."],
  [
    'one kind open',
    () => ({ kind: 'closing-begins', open: [{ kind: 'step', count: 2 }] }),
    'Close-out. Open: two.',
    'Clôture. Points ouverts : deux.',
  ],
  [
    'two kinds open',
    () => ({
      kind: 'closing-begins',
      open: [
        { kind: 'step', count: 2 },
        { kind: 'hold', count: 1 },
      ],
    }),
    'Close-out. Open: three. Steps: two. Checks: one.',
    'Clôture. Points ouverts : trois. Étapes : deux. Contrôles : un.',
  ],
  [
    "nobody's name known",
    () => ({ kind: 'sign-asked', name: null }),
    'Who signs? Say sign as, and your name.',
    'Qui signe? Dites signer comme, et votre nom.',
  ],
  [
    'a name known',
    () => ({ kind: 'sign-asked', name: 'Alex' }),
    'Is Alex to sign? Say yes, or sign as another name.',
    'Est-ce Alex qui signe? Dites oui, ou signer comme un autre nom.',
  ],
  [
    'signed clean',
    () => ({ kind: 'signed', name: 'Alex', exceptions: 0 }),
    'Signature: Alex. No exceptions.',
    'Signature : Alex. Aucune réserve.',
  ],
  [
    'signed with exceptions',
    () => ({ kind: 'signed', name: 'Alex', exceptions: 2 }),
    'Signature: Alex. Exceptions: two.',
    'Signature : Alex. Réserves : deux.',
  ],
  [
    'a follow-up after a distance',
    (w) => followUp(w, { kind: 'distance', value: 50, unit: 'km' }),
    'After five zero: fifty kilometres: Check the torque.',
    'Après cinq zéro : cinquante kilomètres : Contrôler le couple.',
  ],
  [
    'after an hour',
    (w) => followUp(w, { kind: 'time', hours: 1 }),
    'After one hour: Check the torque.',
    'Après une heure : Contrôler le couple.',
  ],
  [
    'after a day, in hours',
    (w) => followUp(w, { kind: 'time', hours: 24 }),
    'After twenty-four hours: Check the torque.',
    'Après vingt-quatre heures : Contrôler le couple.',
  ],
  [
    'after days and a bit, in hours',
    (w) => followUp(w, { kind: 'time', hours: 49 }),
    'After forty-nine hours: Check the torque.',
    'Après quarante-neuf heures : Contrôler le couple.',
  ],
  [
    'after two days',
    (w) => followUp(w, { kind: 'time', hours: 48 }),
    'After two days: Check the torque.',
    'Après deux jours : Contrôler le couple.',
  ],
  [
    'after so many',
    (w) => followUp(w, { kind: 'count', count: 3, of: w.starts }),
    'After three starts: Check the torque.',
    'Après trois démarrages : Contrôler le couple.',
  ],
  [
    'nothing more to follow up',
    () => ({ kind: 'follow-up-logged', left: 0 }),
    'Now on the record. Nothing is left to follow up.',
    'Fait, et au journal. Plus aucun suivi à faire.',
  ],
  [
    'more to follow up',
    () => ({ kind: 'follow-up-logged', left: 1 }),
    'Now on the record. Still to follow up: one.',
    'Fait, et au journal. Suivis restants : un.',
  ],
  [
    'fasteners partly through',
    (w) =>
      matter({ kind: 'fasteners', step: step(), group: group({ name: w.bolt }), untouched: 0, unfinished: 2, reason: null, said: null }),
    'One of three. Step one three, carrier bolts. Not fully tightened: two. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, vis du support. Pas serrées à fond : deux. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'fasteners not touched, with a reason',
    (w) =>
      matter({
        kind: 'fasteners',
        step: step(),
        group: group({ name: w.bolt }),
        untouched: 2,
        unfinished: 0,
        reason: 'no-tool',
        said: null,
      }),
    'One of three. Step one three, carrier bolts. Not tightened at all: two. Reason tool missing. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, vis du support. Pas du tout serrées : deux. Raison outil manquant. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a check never passed',
    (w) => matter({ kind: 'hold', step: step(), hold: turns(w), how: 'never passed', failures: 0 }),
    'One of three. Step one three, check never passed. Does it turn freely? Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, contrôle jamais réussi. Tourne-t-il librement? Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a check that failed twice',
    (w) => matter({ kind: 'hold', step: step(), hold: turns(w), how: 'never passed', failures: 2 }),
    'One of three. Step one three, check never passed. Does it turn freely? Failed: two. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, contrôle jamais réussi. Tourne-t-il librement? Échecs : deux. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a check passed late',
    (w) => matter({ kind: 'hold', step: step(), hold: turns(w), how: 'passed late', failures: 1 }),
    'One of three. Step one three, check passed late. Does it turn freely? Failed: one. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, contrôle réussi tardivement. Tourne-t-il librement? Échecs : un. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a value never taken',
    (w) => matter({ kind: 'measure', step: step(), measure: measure({ name: w.gap }), value: null }),
    'One of three. Step one three, flange gap. Not measured. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, jeu de la bride. Non mesuré. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a value outside',
    (w) => matter({ kind: 'measure', step: step(), measure: measure({ name: w.gap }), value: 2.5 }),
    'One of three. Step one three, flange gap. Outside the limits: two point five millimetres. Say do it now or accept as is or leave it open.',
    'Un sur trois. Étape un trois, jeu de la bride. Hors limites : deux virgule cinq millimètres. Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a question before the first step',
    (w) => matter({ kind: 'note', step: null, text: w.right }),
    'One of three. Your question. Is the seal right? Say do it now or accept as is or leave it open.',
    'Un sur trois. Votre question. Le joint est-il bon? Dites le faire maintenant ou accepter tel quel ou laisser ouvert.',
  ],
  [
    'a question at a step',
    (w) => matter({ kind: 'note', step: step(), text: w.right }),
    'One of three. Your question at step one three. Is the seal right? Say do it now or accept as is or leave it open.',
    "Un sur trois. Votre question à l'étape un trois. Le joint est-il bon? Dites le faire maintenant ou accepter tel quel ou laisser ouvert.",
  ],
];

const words: Readonly<Record<Language, Words>> = { en: english, fr: french };

describe.each(languages)('what is said in %s of', (language) => {
  it.each(rows)('%s', (_, line, en, fr) => {
    expect(say(line(words[language]), language).say).toBe(language === 'en' ? en : fr);
  });
});
