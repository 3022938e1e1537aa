import { fastenerHead } from './fastener-words.ts';
import { bare, marked } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { mayName, stemOf, tellingApart } from './word-classes.ts';

/**
 * Things of a vehicle that carry fasteners, by the last word of their names. Words of the trade, common practice. A thing that is not
 * listed counts only where the sentence itself shows that it is fastened.
 */
const nouns = new Set(
  `equalizer equaliser steady steadies holder member nipple restrictor bone knuckle lugs accumulator actuator angle pedestal section segment row reel bench latch bow hoop bunk cradle floor bulkhead partition ladder step riser eyebolt adapter adaptor adjuster airbag alternator anchor arch arm arrestor axle backplate baffle bag ball balljoint banjo bar barrel
  base battery beam bearing bell bellhousing belt bleeder block body bolster bonnet boot booster box brace bracket brake breather bridge buckle bulkhead
  bumper bush bushing cable cage calliper caliper cam camshaft canister cap carburetor carburettor carrier case casing catalyst cat chain
  chassis clamp clip clutch coil coils collar column compressor condenser conduit cone connection connector console converter cooler coupler coupling cover
  cowl cowling cradle crank crankshaft crossbar crossbeam crossmember crossover crossrail cushion cylinder damper deck diaphragm diff differential
  dipstick disc disk distributor dome door downpipe drain drawbar drive driveline driveshaft drum duct dynamo earth elbow element end engine
  exhaust extension eye fan fascia feed fender filler filter fin finisher fitting flange flap flexi flexplate flywheel foot fork frame gaiter gauge gear
  gearbox gearchange generator girder glow governor grille ground guard guide gusset halfshaft handbrake handle hanger harness hatch head header headlamp headlight
  heater hinge hitch hook horn hose housing hub idler injector inlet insert insulator intake intercooler isolator joint journal keeper
  knuckle ladder lamp latch leaf leg lever lid lift light line liner link linkage lock locker locknut loom loop lug manifold master mast mirror
  module motor mount mounting mounter muffler neck nozzle outlet outrigger pad pan panel pedal pickup pillar pin pinion pipe piston pivot plate
  plenum plug pod pole post prop propshaft pulley pump quadrant rack radiator rail ram receiver regulator relay reservoir resonator retainer retarder
  return ring riser rocker rod roller roof rotor rubber saddle seat selector sender sensor servo shackle shaft shell shield shifter shock shoe
  shroud sidearm silencer sill skid skirt slave sleeve slide snubber socket solenoid spacer spider spindle spline spoiler spring sprocket stabiliser
  stabilizer starter stay steering stiffener stopper strap strike striker strut stub subframe sump support suspension sway swaybar switch tailgate tail
  tailpipe tank tappet tensioner terminal thermostat throttle tie tower towbar track tranny trans transaxle transfer transmission tray trim trunnion
  tube turbine turbo turbocharger turntable undertray underrun unit upright valve vane vent visor wheel wing winch window wishbone wiper wire wiring
  yoke caps coils y-pipe cradle stalk anchorage backbox midpipe crossbrace strutbar bellcrank ignition`.split(/\s+/),
);

/** True where the word, or its singular, is a part of a vehicle that fasteners hold or sit in. */
export const isPart = (word: string): boolean =>
  nouns.has(word) ||
  nouns.has(stemOf(word)) ||
  /(?:shaft|box|pipe|plate|mount|arm|beam|bar|cap|guard|shield|bracket|frame)$/.test(stemOf(word));

/** A part that every assembly has: "the bracket" alone is told apart by what the talk is at. */
export const isCommonPart = (word: string): boolean =>
  /^(?:bracket|clamp|cover|housing|plate|mount|mounting|pipe|flange|end|arm|rod|pin|cap|clip|hose|line|strap|cable|bearing|bush|bushing|joint|link|unit|side|side|support|stay|guard|shield|tube|ring|block|box|body|leg|rail|wire|eye|bag|roller|loop|saddle|guide|retainer)$/.test(
    stemOf(word),
  );

/** What is used up or put in between is no topic: "new gasket, 32 newton metres" speaks of the nuts. */
export const isUsedUp = (word: string): boolean =>
  /^(?:drop|dab|red|blue|gasket|washer|seal|sealant|sealer|grease|paste|oil|coolant|fluid|glue|solvent|cleaner|copper|thread|compound|locker|loctite|threadlock|tape|ptfe|water|o-ring|circlip|cotter|rag|brush|paint|mark|marks|dowel|rtv|silicone|anti|seize|lube|spray)$/.test(
    stemOf(word),
  );

/** The word of a name that says what it is, stemmed: the last that is no word of place. */
export function nounOf(words: readonly string[]): string {
  const own = words.map(stemOf).filter((word) => !tellingApart.has(word) && !/^(?:end|side)$/.test(word));
  return own.at(-1) ?? stemOf(words.at(-1) ?? '');
}

/** True where a part in the plural stands there and another name follows it: "push pins | lug nuts". */
export function endsName(tokens: readonly Token[], at: number): boolean {
  const word = bare(tokens, at);
  // "with a new washer | filter cap"
  if (/^(?:washer|gasket|o-ring)$/.test(word) && /^(?:new|copper|crush|fresh|a)$/.test(bare(tokens, at - 1)) && !marked(tokens, at))
    return mayName(bare(tokens, at + 1)) && fastenerHead(tokens, at + 1) === null;
  if (!/[^s]s$/.test(word) || stemOf(word) === word || !isPart(word) || marked(tokens, at)) return false;
  const next = bare(tokens, at + 1);
  return mayName(next) && !tellingApart.has(next) && fastenerHead(tokens, at + 1) === null;
}
