import type { Item } from './items.ts';
import { bare, phrase } from './sentence-view.ts';
import type { Token } from './tokens.ts';

/** How fasteners are turned, reached and treated: single use, snug, crosswise, thread locker, deep socket, joint, drive. */
export function readFeature(tokens: readonly Token[], at: number): Item | null {
  const word = bare(tokens, at);
  const text = phrase(tokens, at, 6);
  const span = (length: number) => ({ from: at, to: at + length });
  const match = (pattern: RegExp) => pattern.exec(text)?.[0].split(' ').length ?? 0;
  const single = match(
    /^(?:one time use|single use|one time|never (?:be )?reused?|not (?:be )?reused?|don't reuse|torque to yield|stretch bolts?|tty|have to be new|has to be new|got to be new|must be new|new ones|throw (?:the|those|them|away|out)(?: old| ones)*)\b/,
  );
  if (single > 0) return { kind: 'feature', feature: 'single', ...span(single) };
  const cross = match(
    /^(?:criss ?cross|crisscross|cross wise|crosswise|star pattern|in a star|like a star|like an x|in an x|in a cross|cross pattern|across and across|diagonally|opposite corners|across the corners)\b/,
  );
  if (cross > 0) return { kind: 'feature', feature: 'cross', ...span(cross) };
  const round = match(/^(?:around in a circle|in a circle|clockwise in order|round and round)\b/);
  if (round > 0) return { kind: 'feature', feature: 'circular', ...span(round) };
  const snug = match(
    /^(?:just snug|snug|hand tight|finger tight|nipped up|nip (?:it|them) up|good and tight|good n tight|tight by hand)\b/,
  );
  if (snug > 0) return { kind: 'feature', feature: 'snug', ...span(snug) };
  const untouched = match(/^(?:don't touch|don't mess with|leave (?:it|that|them|those) alone)\b/);
  if (untouched > 0) return { kind: 'feature', feature: 'untouched', ...span(untouched) };
  const loose = match(/^(?:leave (?:it|them|those|that) loose|don't (?:torque|tighten) (?:it|them|those|these|this|that|anything)?)/);
  if (loose > 0) return { kind: 'feature', feature: 'loose', ...span(loose) };
  const condition = match(
    /^(?:(?:a )?(?:little |tiny )?(?:bit|dab|drop|dot) of )?(?:(?:blue|red|green|medium|high strength) )?(?:thread ?lock(?:er)?|thread sealant|thread sealer|locking compound|stud lock|anti seize|antiseize|copper grease|thread lock)\b/,
  );
  if (condition > 0 && !/^(?:on|a|of)$/.test(word))
    return { kind: 'condition', text: phrase(tokens, at, condition).replace(/^.* of /, ''), ...span(condition) };
  const deep = match(/^(?:deep (?:well )?(?:socket|impact|one)|deep well|deepwell)\b/);
  if (deep > 0) return { kind: 'reach', text: 'deep socket', ...span(deep) };
  const joint = match(
    /^(?:swivel(?: socket| joint| on it| end)?|universal(?: joint| socket)?|u joint socket|wobble (?:socket|extension|end|bar)|wobbly (?:socket|extension)|flex (?:socket|joint)|knuckle (?:joint|bar) on)\b/,
  );
  if (joint > 0 && !/^universal joint (?:strap|cap|on the|bolt|cross)/.test(text))
    return { kind: 'reach', text: 'universal joint', ...span(joint) };
  const crowfoot = match(/^(?:crow ?foot|crows? ?feet|crow's foot)\b/);
  if (crowfoot > 0) return { kind: 'reach', text: 'crowfoot', ...span(crowfoot) };
  if (/^extensions?$/.test(word)) return { kind: 'reach', text: 'extension', ...span(1) };
  const allen = match(
    /^(?:allen(?: key| bolt| head| bit| wrench| screw)?s?|allens|hex keys?|hex bits?|hexagon (?:bit|key|socket)|socket head(?: cap)?|socket cap|hexagon bits?|in hex|inhex|inner hex(?:agon)?|internal hex(?:agon)?)\b/,
  );
  // "Allen bolts" names fasteners, so only the adjective is taken.
  if (allen > 0)
    return { kind: 'drive', text: 'socket-head hex', ...span(/^(?:bolt|screw)s?$/.test(bare(tokens, at + allen - 1)) ? allen - 1 : allen) };
  const points = match(/^(?:twelve points?(?: heads?)?|12 points?(?: heads?)?|bi ?hex(?:agon)?|double hex(?:agon)?)\b/);
  if (points > 0) return { kind: 'drive', text: 'bihex', ...span(points) };
  if (/^(?:torx)$/.test(word)) return { kind: 'drive', text: 'internal serration', ...span(1) };
  return null;
}
