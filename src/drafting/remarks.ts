import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';

/** What a sentence does in the talk, beside naming fasteners. */
export type Remark =
  | { readonly kind: 'chatter' }
  | { readonly kind: 'caution'; readonly signal: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE'; readonly text: string }
  | { readonly kind: 'before'; readonly of: 'mark' | 'part' | 'support' | 'removed' | 'condition'; readonly text: string }
  | { readonly kind: 'stop'; readonly condition: string; readonly advice: string }
  | { readonly kind: 'hold'; readonly ask: string }
  | { readonly kind: 'ifNo'; readonly advice: string }
  | { readonly kind: 'measure'; readonly name: string; readonly unit: string; readonly min: number | null; readonly max: number | null }
  | { readonly kind: 'wait'; readonly name: string; readonly for: string; readonly blocks: boolean }
  | { readonly kind: 'optional'; readonly text: string }
  | { readonly kind: 'side'; readonly text: string }
  | { readonly kind: 'helper'; readonly text: string }
  | { readonly kind: 'afterwards'; readonly text: string; readonly after: string }
  | { readonly kind: 'why'; readonly text: string };

const chatter =
  /\b(?:welcome back|what's up|what is up|what's going on|hey (?:guys|everybody|everyone|folks|y'all)|hello everybody|subscribe|hit (?:that|the) like|like button|in the comments|leave a comment|comments below|let me know|thanks for watching|thank you for watching|see you (?:next|on|in)|see y'all|catch you|brought to you by|sponsor|shout out|my name is|i'm recording|this is part|last video|next video|in this video|on the channel|that's (?:it|all|the lot|everything|a wrap|pretty much)|peace out|have a (?:good|great) (?:day|one)|good (?:morning|afternoon|evening)|hang on,? phone|where was i|write it down|grab the sheet|bear with me|kettle|questions? or)\b/;

const hurt = /\b(?:kill|die|crush|dead)\b/;
const injure =
  /\b(?:take (?:your|his|her) (?:foot|arm|hand|leg|fingers?)|lose (?:a|your) (?:finger|hand|eye)|have your (?:legs?|arms?|hands?|fingers?|foot) off|burn|cut you|hurt|fall on|roll off|fire|explode|blind|break your (?:arm|leg|wrist|ankle))\b/;
const damage =
  /\b(?:strip|snap|break it|ruin|round (?:it|them|those) off|cross ?thread|scratch|kill the (?:bearing|seal)|kill the bearings|tear|bend|shear|damage)\b/;
const forbids =
  /\b(?:don't|do not|never|don't ever|not to|watch (?:your|out|the)|be careful|careful with|danger|wear|gloves|glasses|goggles|keep (?:your|clear))\b/;

/** What a sentence says beside naming fasteners; a sentence may do several things at once. */
export function remarksOf(sentence: SaidSentence, early: boolean): readonly Remark[] {
  const text = plain(sentence.text);
  const lower = text.toLowerCase();
  if (chatter.test(lower) && sentence.quantities.every(({ kind }) => kind === 'number')) return [{ kind: 'chatter' }];
  const remarks: Remark[] = [];
  const afterwards = readAfterwards(text, sentence);
  if (afterwards !== null) return [afterwards];
  const stop = readStop(text);
  if (stop !== null) remarks.push(stop);
  const ifNo = /^(?:and )?if (?:it|they|not|that|there)(?: isn't| is not| aren't| doesn't| don't| won't|'s not)?[ ,]+(.+)$/i.exec(text);
  if (stop === null && ifNo !== null && /\b(?:isn't|aren't|doesn't|don't|not|won't)\b/i.test(text.slice(0, 24)))
    remarks.push({ kind: 'ifNo', advice: sentenceOf(ifNo[1] ?? text) });
  if (/\?\s*$/.test(text) && /^(?:is|are|does|do|has|have|did|can)\b/i.test(text)) remarks.push({ kind: 'hold', ask: sentenceOf(text) });
  const sure = /\b(?:make sure|be sure|ensure|check) (?:that )?((?:the |your |you |it |both |all |those |they |there |that )?.+)$/i.exec(
    text,
  );
  const helper =
    /\b(?:have (?:somebody|someone|a buddy)|get (?:somebody|someone|a buddy|a mate|a helper)|second pair of hands|second person|two people|(?:a|your|the) helper (?:to|holds|must|should|at|can)|somebody (?:to |watching|holding|at|on)|somebody's (?:got|going) to|someone (?:to |watching|holding|should|must)|one person on|do not do this one by yourself|not by yourself|(?:want|need|takes) (?:two of you|somebody|someone|a mate|another pair)|or a mate|a colleague must|help you (?:lift|hold|lower)|won't go up with one)\b/i;
  const before = early ? readBefore(text) : null;
  if (before !== null) remarks.push(before);
  else if (sure !== null && stop === null && !/^(?:to|that one|it out|those out|out)\b/i.test(sure[1] ?? '') && !tellsValue(sentence))
    remarks.push({ kind: 'hold', ask: `Are you sure that ${trimEnd(sure[1] ?? '')}?` });
  const measure = readMeasure(sentence, text);
  if (measure !== null) remarks.push(measure);
  const wait = readWait(sentence, text);
  if (wait !== null) remarks.push(wait);
  if (helper.test(text)) remarks.push({ kind: 'helper', text: sentenceOf(text) });
  if (
    /\b(?:optional|you can leave (?:that|it|this) (?:off|out)|don't have to (?:put|fit|do)|don't worry about it|if you want to|only if you|you can skip|if fitted|if (?:you|yours) (?:have|has) the one with|if you had (?:it|them) off)\b/i.test(
      text,
    )
  )
    remarks.push({ kind: 'optional', text: sentenceOf(text) });
  if (
    /\b(?:(?:other|separate|previous) (?:recording|video)|another (?:recording|video)|i won't go into|i'm not going to go into|side procedure|(?:see|find (?:it|that) in|it's in|that's in) the (?:\w+ ){0,3}recording)\b/i.test(
      text,
    )
  )
    remarks.push({ kind: 'side', text: sentenceOf(text) });
  const caution = stop === null && before === null ? readCaution(text) : null;
  if (caution !== null) remarks.push(caution);
  const because = /\b(?:because|'cause|cause|so that|otherwise|that way)\b (.+)$/i.exec(text);
  if (because !== null && caution === null && remarks.length === 0) remarks.push({ kind: 'why', text: sentenceOf(because[0]) });
  return remarks;
}

/** A size or a torque is told of fasteners, and "check" is then no question to the hand. */
const tellsValue = ({ quantities }: SaidSentence) => quantities.some(({ kind }) => /^(?:torque|serration)$/.test(kind));

/** Said again without the sounds between the words. */
export function plain(text: string): string {
  return text
    .replace(/(^|\s)(?:uh|um|er|erm|ah|hmm)\b[,.]?/gi, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}

const trimEnd = (text: string) => text.replace(/[\s,.;:!?…-]+$/, '');

/** With a capital and a full stop. */
export function sentenceOf(text: string): string {
  const trimmed = text.trim().replace(/[\s,;:…-]+$/, '');
  if (trimmed === '') return '';
  const capital = trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
  return /[.?!]$/.test(capital) ? capital : `${capital}.`;
}

/** "Warning: the exhaust may still be hot." */
const signalled = /^(danger|warning|caution|notice)[:!,.]\s+(.+)$/i;

function readCaution(text: string): Remark | null {
  const said = signalled.exec(stripOpening(text));
  if (said !== null) return { kind: 'caution', signal: signalOf(said[1] ?? ''), text: sentenceOf(said[2] ?? text) };
  const lower = text.toLowerCase();
  if (
    /\bmind your (?:hands|fingers|head|eyes|feet|toes)\b|\bcareful[, ]+(?:it's |that's )?hot\b/.test(lower) ||
    (weight.test(lower) && !/\btorque/.test(lower))
  )
    return { kind: 'caution', signal: 'CAUTION', text: sentenceOf(stripOpening(text)) };
  if (/\bwatch (?:your|the) (?!video|next|other|last|first|channel)/.test(lower))
    return { kind: 'caution', signal: 'NOTICE', text: sentenceOf(stripOpening(text)) };
  if (!forbids.test(lower) && !hurt.test(lower) && !injure.test(lower)) return null;
  const warned =
    hurt.test(lower) ||
    injure.test(lower) ||
    damage.test(lower) ||
    /\b(?:never|danger|gloves|glasses|goggles|under (?:the|it) .*(?:jack|lift|table))\b/.test(lower);
  if (!warned) return null;
  // "will kill you" and "could": the words decide (ANSI Z535.6); harm to parts alone is a notice.
  const will = /\b(?:will|'ll|it'll|would|'d)\b/.test(lower);
  const parts = /\bkill (?:the|your) (?:bearings?|seals?|threads?)\b/.test(lower);
  const signal =
    hurt.test(lower) && !parts
      ? will
        ? 'DANGER'
        : 'WARNING'
      : injure.test(lower) || /\bunder\b.*\b(?:jack|lift|table)\b/.test(lower)
        ? 'WARNING'
        : damage.test(lower) || parts
          ? 'NOTICE'
          : 'CAUTION';
  return { kind: 'caution', signal, text: sentenceOf(stripOpening(text)) };
}

const weight = /\bweighs? .*\b(?:kilos?|kilograms?|kg|pounds|ton)\b|\bit(?:'s| is) heavy\b/;

const signalOf = (word: string) => {
  const upper = word.toUpperCase();
  return upper === 'DANGER' || upper === 'WARNING' || upper === 'CAUTION' ? upper : 'NOTICE';
};

/** "if it feels tight, stop, back it off": what the hand feels, and what to do then. */
function readStop(text: string): Remark | null {
  const found =
    /\bif ((?:it|they|you|the|that|your|any|there|one|anything|something|either)\b.+?)(?:,| then|(?= (?:stop|don't|do not|back|pull|let|quit|take it)\b)) ?(.*\b(?:stop|back (?:it|them|off)|don't (?:force|pull|draw|start|go|drive|keep)|do not force|let it down|pull it back|quit)\b.*)$/i.exec(
      text,
    );
  if (found === null) return null;
  const [, condition = '', advice = ''] = found;
  if (condition.split(' ').length > 14) return null;
  return { kind: 'stop', condition: stateAsQuestion(condition), advice: sentenceOf(advice.replace(/^(?:then|you|just) /i, '')) };
}

/** "it feels tight" → "Does it feel tight?" */
export function stateAsQuestion(state: string): string {
  const words = trimEnd(state).split(' ');
  const subject =
    words.length > 1 && /^(?:the|your|any|that|this|those|these|either|one)$/i.test(words[0] ?? '') ? subjectLength(words) : 1;
  const [verb = '', ...rest] = words.slice(subject);
  const who = words.slice(0, subject).join(' ');
  const short = /^(.+?)'(s|re)$/i.exec(words[0] ?? '');
  if (subject === 1 && short !== null) return ask(short[2] === 's' ? 'Is' : 'Are', short[1] ?? '', words.slice(1));
  const negative = /^(?:doesn't|don't|won't|can't|isn't|aren't|didn't)$/i.exec(verb)?.[0].toLowerCase();
  if (negative !== undefined) {
    const base =
      { "doesn't": 'Does', "don't": 'Do', "won't": 'Will', "can't": 'Can', "isn't": 'Is', "aren't": 'Are', "didn't": 'Did' }[negative] ??
      'Does';
    return ask(base, who, ['not', ...rest]);
  }
  if (/^(?:is|are|has|have|will|can)$/i.test(verb)) return ask(verb, who, rest);
  const plural = /^(?:you|they|we|those|these)$/i.test(who) || (/s$/.test(who) && !/s$/.test(verb));
  return plural ? ask('Do', who, [verb, ...rest]) : ask('Does', who, [baseOf(verb), ...rest]);
}

/** Where the subject ends: before the first word that looks like its verb. */
function subjectLength(words: readonly string[]): number {
  const at = words.findIndex(
    (word, index) =>
      index > 0 &&
      /^(?:is|are|has|have|will|can|doesn't|don't|won't|can't|isn't|aren't|feels?|goes|go|starts?|stops?|jams?|binds?|comes?|falls?|keeps?|spins?|moves?|slips?|hangs?|pulls?)$/i.test(
        word,
      ),
  );
  return at < 0 ? Math.min(2, words.length - 1) : at;
}

const ask = (verb: string, who: string, rest: readonly string[]) =>
  sentenceOf(
    `${verb.charAt(0).toUpperCase()}${verb.slice(1).toLowerCase()} ${who.toLowerCase() === 'i' ? 'I' : who.charAt(0).toLowerCase() + who.slice(1)} ${rest.join(' ')}`,
  ).replace(/\.$/, '?');

function baseOf(verb: string): string {
  const lower = verb.toLowerCase();
  if (lower === 'goes' || lower === 'does') return lower.slice(0, -2);
  if (/(?:sses|ches|shes|xes)$/.test(lower)) return lower.slice(0, -2);
  if (/ies$/.test(lower)) return `${lower.slice(0, -3)}y`;
  return /[^s]s$/.test(lower) ? lower.slice(0, -1) : lower;
}

function readBefore(text: string): Remark | null {
  const lower = text.toLowerCase();
  const opens =
    /\b(?:before (?:you start|we start|anything else|you do anything|we do anything|you begin|we go|you even)|you(?:'ll| will)? need|safety|number one|first thing|first off|make sure|check that|the van (?:must|has to|is)|van's|truck's|bus is|frame's|must be|should be (?:on|off|out))\b/;
  const of = kindOfBefore(lower);
  if (of === null || (!opens.test(lower) && of !== 'support')) return null;
  return { kind: 'before', of, text: sentenceOf(stripOpening(text)) };
}

function kindOfBefore(lower: string): Extract<Remark, { kind: 'before' }>['of'] | null {
  if (/\b(?:paint marks?|marks? (?:you|we) made|your marks|match marks|alignment marks)\b/.test(lower)) return 'mark';
  if (
    /\b(?:jack stands?|axle stands|on stands|on two .*stands|on the lift|post lift|four post|two-post|on a lift|column lifts|chock|trans(?:mission)? jack|lift table|hoist|safety locks|arms locked|strapped|strap it|paddock stand)\b/.test(
      lower,
    )
  )
    return 'support';
  if (/\b(?:new (?:seals?|gaskets?|bolts?|nuts?|clips?|o-rings?)|seals? out|you(?:'ll| will)? need)\b/.test(lower)) return 'part';
  if (/\b(?:disconnected|is off|are off|drained|removed|dumped|earth is off|battery)\b/.test(lower)) return 'removed';
  if (/\b(?:must be|has to be|make sure|check that|clean|level|released)\b/.test(lower)) return 'condition';
  return null;
}

function readMeasure(sentence: SaidSentence, text: string): Remark | null {
  const found = sentence.quantities.find(({ kind }) => kind === 'length' || kind === 'width' || kind === 'other' || kind === 'angle');
  if (found === undefined) return null;
  const lower = text.toLowerCase();
  if (
    !/\b(?:should be|should have|has to be|must be|needs to be|measure|between|at least|no more than|less than|more than|gap|clearance)\b/.test(
      lower,
    )
  )
    return null;
  if (found.kind === 'other' && !/\b(?:pressure|volts)\b/.test(found.what)) return null;
  const told = readLimits(
    found,
    sentence.tokens
      .slice(Math.max(0, found.from - 4), found.from)
      .map(({ bare }) => bare)
      .join(' '),
  );
  if (told === null) return null;
  const { unit, ...bounds } = told;
  const name =
    /^(?:so |and |now |then )*(?:the |your |check the |measure the |check )?([a-z][a-z -]{2,50}?)(?:[:,]| should| has to| must| needs|'s|$)/i.exec(
      stripOpening(text),
    )?.[1] ?? 'distance';
  return { kind: 'measure', name: trimEnd(name).toLowerCase(), unit, min: bounds.min, max: bounds.max };
}

/** "at least fifteen millimetres", "between 2 and 3 millimetres", "no more than 40 psi". */
function readLimits(
  found: QuantitySpan,
  before: string,
): { readonly min: number | null; readonly max: number | null; readonly unit: string } | null {
  const told =
    found.kind === 'width'
      ? { value: found.value, high: found.high, unit: found.unit }
      : found.kind === 'length'
        ? { value: found.millimetres, high: null, unit: 'mm' }
        : found.kind === 'other' && found.what === 'pressure'
          ? { value: found.value, high: null, unit: 'psi' }
          : null;
  if (told === null) return null;
  if (told.high !== null) return { min: told.value, max: told.high, unit: told.unit };
  if (/\b(?:at least|more than|no less than|over)\b/.test(before)) return { min: told.value, max: null, unit: told.unit };
  return /\b(?:less than|no more than|not more than|at most|under)\b/.test(before) ? { min: null, max: told.value, unit: told.unit } : null;
}

function readWait(sentence: SaidSentence, text: string): Remark | null {
  const time = sentence.quantities.find(({ kind }) => kind === 'time');
  const lower = text.toLowerCase();
  const hour = /\b(?:an|one) hour\b/.test(lower) ? 3600 : null;
  const seconds = time?.kind === 'time' ? time.seconds : hour;
  if (seconds === null || seconds > 86_400) return null;
  if (!/\b(?:wait|let (?:it|that|them|this)|give it|leave (?:it|them|that)|stand for|sit for|cool|idle)\b/.test(lower)) return null;
  const amount = seconds % 3600 === 0 ? `${seconds / 3600} h` : seconds % 60 === 0 ? `${seconds / 60} min` : `${seconds} s`;
  return { kind: 'wait', name: trimEnd(stripOpening(text)).slice(0, 110), for: amount, blocks: /\b(?:wait|before|until)\b/.test(lower) };
}

function readAfterwards(text: string, sentence: SaidSentence): Remark | null {
  const lower = text.toLowerCase();
  const distance = sentence.quantities.findLast(({ kind }) => kind === 'distance');
  if (
    !/\b(?:re-?torque|re-?torqued|re-?tighten|re-?check|check|again|go(?:ne)? round|change the (?:oil|fluid)|keep it under|drive)\b/.test(
      lower,
    )
  )
    return null;
  const words = sentence.tokens.map(({ bare }) => bare).join(' ');
  const say = sentenceOf(stripOpening(text));
  if (distance?.kind === 'distance') return { kind: 'afterwards', text: say, after: `${distance.value} ${distance.unit}` };
  if (/\b(?:the first )?hundred miles\b/.test(words)) return { kind: 'afterwards', text: say, after: '100 mi' };
  if (/\bheat cycle\b/.test(words)) return { kind: 'afterwards', text: say, after: '1 heat cycles' };
  const time = sentence.quantities.findLast((one) => one.kind === 'time' && one.seconds >= 86_400);
  const days = time?.kind === 'time' ? time.seconds / 86_400 : /\bafter (?:the first|a) week\b/.test(words) ? 7 : null;
  return days === null ? null : { kind: 'afterwards', text: say, after: `${days} days` };
}

const openings =
  /^(?:(?:so|okay|ok|alright|all right|right|now|well|and|then|next|but|also|oh|like|anyway|basically|actually|guys|first of all|first off|first thing|step one|number one|again|listen|safety first|you know)\b[,:.]?\s*)+/i;

/** Without "okay so now" and the like. */
export function stripOpening(text: string): string {
  return text.replace(openings, '').trim();
}
