import type { Token } from './tokens.ts';
import { tableOf } from '../torque/table.ts';

/** What is turned: bolts, nuts and screws are always fasteners; the others only where a size or torque is told for them. */
const heads: Readonly<Record<string, { readonly name: string; readonly sure: boolean }>> = tableOf<{
  readonly name: string;
  readonly sure: boolean;
}>({
  bolt: { name: 'bolt', sure: true },
  nut: { name: 'nut', sure: true },
  locknut: { name: 'nut', sure: true },
  screw: { name: 'screw', sure: true },
  capscrew: { name: 'cap screw', sure: true },
  setscrew: { name: 'set screw', sure: true },
  fastener: { name: 'fastener', sure: true },
  fixing: { name: 'fixing', sure: false },
  lug: { name: 'lug', sure: false },
  stud: { name: 'stud', sure: false },
  plug: { name: 'plug', sure: false },
  banjo: { name: 'banjo', sure: false },
  fitting: { name: 'fitting', sure: false },
  union: { name: 'union', sure: false },
});

/** After these a fastener word names something else: "bolt hole", "nut driver", "plug wires". */
const elsewhere = new Set(
  'hole holes pattern plate plates driver drivers tool tools gun remover extractor kit kits thread threads circle wires wire splitter runner setter boss bosses strip grease socket sockets wrench spanner'.split(
    ' ',
  ),
);

/** The fastener named by that token, or null. */
export function fastenerHead(
  tokens: readonly Token[],
  at: number,
): { readonly name: string; readonly sure: boolean; readonly plural: boolean } | null {
  const word = tokens[at]?.bare ?? '';
  const plural = word.endsWith('s');
  const head = heads[plural ? word.slice(0, -1) : word];
  if (head === undefined || !Object.hasOwn(heads, plural ? word.slice(0, -1) : word)) return null;
  const open = (tokens[at]?.mark ?? '') === '';
  const next = tokens[at + 1]?.bare ?? '';
  if (open && elsewhere.has(next)) return null;
  if (isUsedAsVerb(tokens, at, word)) return null;
  return { ...head, plural };
}

/** "the bracket bolts to the frame", "plug it in", "that bolts on", "screw it down". */
function isUsedAsVerb(tokens: readonly Token[], at: number, word: string): boolean {
  if (!/^(?:bolts?|screws?|plugs?|nuts?)$/.test(word) || (tokens[at]?.mark ?? '') !== '') return false;
  const before = at === 0 || (tokens[at - 1]?.mark ?? '') !== '' ? '' : (tokens[at - 1]?.bare ?? '');
  const next = tokens[at + 1]?.bare ?? '';
  const second = tokens[at + 2]?.bare ?? '';
  if (
    /^(?:that|which|it|to|we|you|they|i|'ll|can|then|just|gonna)$/.test(before) &&
    /^(?:the|a|an|it|them|this|that|these|those|in|on|onto|to|up|into|right|straight|down|back|all|your|my|everything|things|stuff)$/.test(
      next,
    )
  )
    return true;
  if (before === '' && /^(?:the|it|them|this|that|your|these|those|in|up|down)$/.test(next)) return true;
  if (before === 'and' && /^(?:it|them|the)$/.test(next) && !word.endsWith('s')) return true;
  if (!word.endsWith('s')) return false;
  // "bracket bolts to the body, 55": a value with no verb before it.
  const place = tokens.slice(at + 1, at + 6).findIndex((token) => /^[,:]/.test(token.mark));
  if (next === 'to' && second === 'the' && place >= 2 && /^\d|^(?:[a-z]+ty|[a-z]+teen|hundred)/.test(tokens[at + 2 + place]?.bare ?? ''))
    return false;
  const counted =
    /^(?:\d.*|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|twenty|thirty|these|those|the|all|both|of|more|other|new|long|short|big|little|last|mm|mil|millimeter|millimetre|inch)$/.test(
      before,
    );
  const open = (index: number) => (tokens[index]?.mark ?? '') === '';
  const countedBefore = [2, 3, 4].some(
    (back) =>
      open(at - 1) &&
      (back < 3 || open(at - 2)) &&
      /^(?:two|three|four|five|six|seven|eight|nine|ten|twelve|these|those|both|of)$/.test(tokens[at - back]?.bare ?? ''),
  );
  return (
    !counted &&
    !countedBefore &&
    /^(?:to|onto|into|up|in|right|straight)$/.test(next) &&
    /^(?:the|a|an|this|that|your|its|it|my|to|there|here)$/.test(
      next === 'up' || next === 'right' || next === 'straight' ? (/^(?:to|onto|into|in)$/.test(second) ? 'to' : second) : second,
    ) &&
    !/^(?:nuts|plugs)$/.test(word)
  );
}
