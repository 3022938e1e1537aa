import type { Token } from './tokens.ts';
import { tableOf } from '../torque/table.ts';

/** The closed classes of English, and the few open words whose class matters. Everything else may name a thing. */
const set = (words: string): ReadonlySet<string> => new Set(words.trim().split(/\s+/));

export const determiners = set(
  'the a an this that these those my your our his her its their some any no each every all both another other either neither what whichever',
);
export const prepositions = set(
  'except on in at to into onto of for from with without by through across around round under underneath below beneath above over behind beside besides between inside outside near against along down up off out towards toward after before during past via per until till about beyond within outta',
);
/** Those that say where a fastener is. */
export const placePrepositions = set(
  'on in at to into onto of for from by through across around round under underneath below beneath above over behind beside between inside outside near against along down up off towards toward',
);
export const pronouns = set(
  'i you he she it we they me him us them myself yourself itself themselves mine yours ours theirs who whom somebody someone everybody everyone whatever whichever anybody anyone nobody something anything nothing everything here there',
);
export const conjunctions = set(
  'and or but nor so because since as if when whenever while once unless although though than whether which that where why how',
);
export const auxiliaries = set(
  "is are am was were be been being 's 're 'm 'll 'd 've has have had having do does did done doing will would can could shall should may might must ought don't doesn't didn't isn't aren't wasn't weren't won't wouldn't can't couldn't shouldn't mustn't needn't haven't hasn't hadn't ain't not n't never",
);
export const adverbs = set(
  'better just only really very pretty quite too also again back then now next first last finally already still yet even ever always usually often sometimes maybe perhaps probably basically actually honestly literally obviously definitely kinda sorta like well okay alright right uh um er ah oh hey yeah yes no please almost nearly about roughly together altogether apart away everywhere anywhere somewhere straight evenly tightly gently slowly carefully easily hard tight loose snug fully properly enough instead otherwise though anyway however later earlier early soon once twice double more most less least much many few lots plenty ago else here there home clockwise counterclockwise anticlockwise crisscross crosswise course exactly',
);

const verbStems = set(
  'nip miss tweak nudge put get go take bring lift raise lower slide push pull tighten torque retorque run start line fit install hang bolt screw thread snug hold turn spin set clean wipe check make use need want have do keep let leave come reach watch see look plug connect disconnect hook clip snap click drop pop tap knock hit grab give throw replace reuse remove undo loosen crack back bleed fill drain top wait drive bounce spray grease oil smear say tell know think like remember forget mark measure press squeeze bend route tuck wrap cut feel hear mean work stay sit stick touch clear move swing rotate jack support chock strap guide steady draw seat align repeat finish call buy break strip shear drip leak read write talk try help show walk bottom wind pinch clamp fix attach secure mount locate support rest hang carry cover reinforce retain lock inspect count lay change swap fasten retighten recheck rerun warn stop begin end happen seem become lose save pay pick point hope guess bet wish love hate appreciate subscribe thank ask listen sound skip beat burn hurt kill catch fall roll flip climb crawl lean stand wear protect shut open close charge dump vent prime soak dab apply coat seal torqued zip buzz ram hammer pry wiggle jiggle wobble ease feed thread dress tie bleed park rattle drag scoot shove muscle',
);
/** Verbs that are as often a noun under a vehicle; only their neighbours tell. */
const nounOrVerb = set(
  'ram tie bleed park rattle drag lower drop crank ease dress mount bracket clamp bolt nut torque screw plug cover shield support drive lift jack seal check stop drain fill guide link hold start run turn grease oil mark strap clip press draw seat back line top hook bottom snap pop tap cut pinch lock spray clean set stand wear point spin swing stick wrap work call help hit change count thread measure use look feel fit rest charge vent zip pry end roll stay slide lever wind beat catch hang lean swap hammer ring slack bend move knock lead pull push coat dab prime',
);

const irregular = set(
  'known trusted slackened undone gets got gotten getting goes going gone went takes took taken taking puts putting brings brought comes came coming makes made making keeps kept holds held holding sits sat sitting sets setting lets letting leaves left sees saw seen says said tells told thinks thought knows knew runs ran running hangs hung hanging slides slid swings swung spins spun sticks stuck breaks broke broken does did done has had having gives gave given feels felt wants wanted needs needed uses used hits hitting cuts cutting throws threw thrown draws drew drawn drives drove driven winds wound bends bent catches caught stands stood wears wore worn reads reading',
);

function stems(word: string): readonly string[] {
  const out = [word];
  if (word.endsWith('ing')) out.push(word.slice(0, -3), `${word.slice(0, -3)}e`, word.slice(0, -4));
  if (word.endsWith('ed')) out.push(word.slice(0, -2), word.slice(0, -1), word.slice(0, -3));
  if (word.endsWith('ies')) out.push(`${word.slice(0, -3)}y`);
  if (word.endsWith('es')) out.push(word.slice(0, -2));
  if (word.endsWith('s')) out.push(word.slice(0, -1));
  return out;
}

const isVerbForm = (word: string) => irregular.has(word) || stems(word).some((stem) => verbStems.has(stem));
const mayBeNoun = (word: string) => stems(word).some((stem) => nounOrVerb.has(stem));

const subjects = set(
  "i you we they he she it who 'll will would can could should must may might don't didn't doesn't won't can't never always please just then and to gonna let lets not ya",
);
const objects = set(
  'the a an this that these those them it all both your my our each every him her up down in on off out back some new everything',
);

/** True where the word is a verb there, judged by its neighbours where it may be either. */
export function isVerb(tokens: readonly Token[], at: number): boolean {
  const word = tokens[at]?.bare ?? '';
  if (!isVerbForm(word)) return false;
  if (word === 'left' && !/^(?:i|we|they|you|he|she|it|have|has|'ve|was|be|been)$/.test(tokens[at - 1]?.bare ?? '')) return false;
  if (/(?:ing|ed)$/.test(word)) return !isDescribing(tokens, at);
  const before = at === 0 || (tokens[at - 1]?.mark ?? '') !== '' ? '' : (tokens[at - 1]?.bare ?? '');
  if (/^(?:the|a|an|your|my|its|each|every)$/.test(before)) return false;
  if (
    /^(?:bolts|nuts|screws|studs|plugs|clips|stays|mounts|clamps|straps|guides|links|covers|guards|braces|supports)$/.test(word) &&
    /^(?:\d+s?|two|three|four|five|six|seven|eight|nine|ten|twelve|millimet(?:er|re)|mil|mm|inch|long|short|little|big|these|those)$/.test(
      before,
    )
  )
    return false;
  if (!mayBeNoun(word)) return true;
  // "the caliper carrier fits on that", "the main bolts run down both sides"
  const goes =
    /^(?:fits|sits|hangs|slides|drops|runs)$/.test(word) || (/^(?:fit|sit|hang|slide|drop|run)$/.test(word) && /[^s]s$/.test(before));
  const where = (tokens[at]?.mark ?? '') === '' ? `${tokens[at + 1]?.bare ?? ''} ${tokens[at + 2]?.bare ?? ''}` : '';
  if (goes && /^(?:on|in|into|onto|over|through|down|up|to|across|along) (?:that|the|this|it|a|both|each|there|here)$/.test(where))
    return true;
  // "engine mount on the right": half of a name.
  if (
    /^(?:mount|support|bracket|seal|cover|shield|guard|brace|clamp|guide|stop|stay|line|drain|fill|drive|lock|link|pinch)$/.test(word) &&
    /^(?:engine|trans|transmission|gearbox|motor|body|cab|strut|left|right|front|rear|side|upper|lower|exhaust|radiator|heat|dust|splash|mud|hose|pipe|drop|oil|fuel|brake)$/.test(
      before,
    )
  )
    return false;
  const after = (tokens[at]?.mark ?? '') === '' ? (tokens[at + 1]?.bare ?? '') : '';
  // "then drop link, 16 nut": half of a name.
  if (
    /^(?:links?|rods?|shafts?|plugs?|bolts?|nuts?|brackets?|plates?|arms?|pins?|bars?|screws?|studs?|shields?)$/.test(after) &&
    !/^(?:i|you|we|they|'ll|to|will)$/.test(before)
  )
    return false;
  if (determiners.has(before) && before !== 'that' && before !== 'all' && before !== 'both') return false;
  const second = tokens[at + 2]?.bare ?? '';
  const takesObject =
    (/^(?:the|a|an|it|them|that|this|these|those|your|all|both|my)$/.test(after) && !/^(?:one|is|'s)$/.test(second)) ||
    (/^(?:up|down|in|on|off|out|back)$/.test(after) && /^(?:the|a|an|it|them|your|to|on|in|until|till)$/.test(second));
  if (before === 'and' && /^(?:look|check|push|pull|listen|watch|tug|work|start)$/.test(word) && prepositions.has(after)) return true;
  if (subjects.has(before)) return before !== 'and' || objects.has(after);
  if (before === '')
    return (
      objects.has(after) ||
      (/^(?:look|check|push|pull|listen|watch|stop|wait|run|tug|work|start)$/.test(word) &&
        (prepositions.has(after) || /^(?:till|until|and|that)$/.test(after)))
    );
  // A thing is seldom followed by another's article, even where nobody writes the full stops.
  return takesObject || (objects.has(after) && (conjunctions.has(before) || adverbs.has(before) || pronouns.has(before)));
}

/** "mounting bolts", "a splined shaft": a participle before a thing describes it. */
function isDescribing(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1]?.bare ?? '';
  const after = tokens[at + 1]?.bare ?? '';
  if ((tokens[at]?.mark ?? '') !== '' || !mayName(after) || (isVerbForm(after) && !mayBeNoun(after))) return false;
  return (
    at === 0 ||
    determiners.has(before) ||
    /^(?:\d+|two|three|four|five|six|eight)$/.test(before) ||
    mayName(before) ||
    prepositions.has(before)
  );
}

const notNames = set(
  'alive shop store garage morning evening afternoon deep forgot forgotten therefore welcome hello hi hey hiya cheers thanks square single lone pass passes round rounds stage stages plus total worry rule thing things stuff bit lot lots kind sort type way time times minute minutes second seconds guy guys everybody folks video videos channel job jobs day today tomorrow yesterday week year years hand hands people person course deal okay sure sorry same whole part parts bunch couple pair dozen list number numbers size sizes spec specs specification torques turn turns step steps part place places matter reason idea problem question questions comment comments rest luck heck hell god man dude boys fun buddy friend bear pain one ones two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety zero hundred thousand newton newtons metre metres meter meters foot inch inches pound pounds millimetre millimetres millimeter millimeters mm mil mils nm lb lbs degrees degree percent o',
);

/** A word that may be part of a thing's name. */
/** "in case you …" names nothing. */
export const isInCase = (tokens: readonly Token[], at: number) =>
  tokens[at]?.bare === 'case' && /^(?:in|any|that|just)$/.test(tokens[at - 1]?.bare ?? '');

export function mayName(word: string): boolean {
  if (word === '' || /^[\d.]/.test(word) || word.startsWith("'") || notNames.has(word)) return false;
  return !(
    determiners.has(word) ||
    prepositions.has(word) ||
    pronouns.has(word) ||
    conjunctions.has(word) ||
    auxiliaries.has(word) ||
    adverbs.has(word)
  );
}

/** Words of place and kind that tell one fastener from its neighbours. "top", "back" and the like are also other things elsewhere. */
export const tellingApart = set(
  'front rear back top bottom upper lower left right inner outer inboard outboard outside inside middle center centre long short longer shorter longest shortest big small bigger smaller little wee large larger forward rearward main side end first second third last final remaining other driver passenger nearside offside high low horizontal vertical outermost innermost tall fat thin thick far near',
);

/** Tools and their parts are named beside fasteners and are none. */
export const toolWords = set(
  'socket sockets wrench wrenches ratchet spanner spanners extension extensions swivel wobble universal impact gun breaker driver drivers bit bits key keys hexagon crowfoot allen torx hex phillips screwdriver hammer chisel pliers multiplier tool tools gauge drift blade mirror magnet torque',
);

const stemmed: Readonly<Record<string, string>> = tableOf<string>({
  back: 'rear',
  feet: 'foot',
  backs: 'rear',
  centre: 'center',
  centres: 'center',
  longer: 'long',
  longest: 'long',
  shorter: 'short',
  shortest: 'short',
  bigger: 'big',
  smaller: 'small',
  large: 'big',
  larger: 'big',
  little: 'small',
  wee: 'small',
  ally: 'aluminum',
  aluminium: 'aluminum',
  propeller: 'prop',
  fronts: 'front',
  rears: 'rear',
  uppers: 'upper',
  lowers: 'lower',
  tranny: 'transmission',
  trans: 'transmission',
  gearbox: 'transmission',
  diff: 'differential',
  lengthways: 'long',
  grey: 'gray',
  tyre: 'tire',
  tyres: 'tire',
});

/** A name's word without its plural, spelled one way, so that mentions can be compared. */
export function stemOf(word: string): string {
  const known = stemmed[word];
  if (known !== undefined) return known;
  if (word.length > 4 && word.endsWith('ies')) return `${word.slice(0, -3)}y`;
  if (word.length > 4 && /(?:ss|x|ch|sh)es$/.test(word)) return word.slice(0, -2);
  if (word.length > 3 && word.endsWith('s') && !word.endsWith('ss') && !word.endsWith('us')) return word.slice(0, -1);
  return word;
}

const opposites: readonly (readonly [string, string])[] = [
  ['front', 'rear'],
  ['left', 'right'],
  ['upper', 'lower'],
  ['top', 'bottom'],
  ['inner', 'outer'],
  ['inboard', 'outboard'],
  ['long', 'short'],
  ['big', 'small'],
  ['driver', 'passenger'],
  ['nearside', 'offside'],
  ['inside', 'outside'],
  ['first', 'last'],
  ['horizontal', 'vertical'],
  ['high', 'low'],
  ['upper', 'bottom'],
  ['top', 'lower'],
  ['fill', 'drain'],
  ['filler', 'drain'],
  ['intake', 'exhaust'],
  ['forward', 'rear'],
];

/** "front" cannot be "rear": such words keep two things apart. */
export function areOpposite(one: string, other: string): boolean {
  return opposites.some(([a, b]) => (one === a && other === b) || (one === b && other === a));
}
