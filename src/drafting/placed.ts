import type { Mention } from './mention.ts';
import type { Opening } from './opening.ts';
import { readHolding, readPlace, type Each } from './places.ts';
import type { QuantitySpan } from './quantities.ts';
import { marked, type Sentence } from './sentence-view.ts';

/** What was named, before the words of its place are read. */
export interface NamedHere {
  readonly opening: Opening;
  readonly at: number;
  readonly to: number;
  readonly names: readonly string[];
  readonly inside: readonly QuantitySpan[];
  readonly bySize: number | null;
  readonly byText: string | null;
  readonly needsLot?: boolean;
  readonly head: string | null;
  readonly sure: boolean;
  readonly plural: boolean;
  readonly isNew: boolean;
}

/** With the words that say where it is: "on each side", "at the front", "that hold it to the frame". */
export function withPlace(sentence: Sentence, draft: NamedHere): Mention {
  const place: string[] = [];
  let each: Each | null = null;
  let end = draft.to;
  for (let guard = 0; guard < 4; guard++) {
    if (marked(sentence.tokens, end - 1)) break;
    const found = readPlace(sentence, end) ?? readHolding(sentence, end);
    if (found === null) break;
    place.push(...found.words);
    each ??= found.each;
    end = found.end;
  }
  const { opening } = draft;
  return {
    from: draft.at,
    to: draft.to,
    end,
    head: draft.head,
    sure: draft.sure,
    plural: draft.plural,
    article: opening.article,
    count: opening.count ?? (draft.plural || draft.head === null ? null : opening.article === 'indefinite' ? 1 : null),
    vague: opening.vague,
    share: opening.share,
    another: opening.another,
    names: draft.names,
    place,
    each,
    inside: draft.inside,
    bySize: draft.bySize,
    byText: draft.byText,
    needsLot: draft.needsLot ?? false,
    isNew: draft.isNew,
  };
}
