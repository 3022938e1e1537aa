/** Whether a clip ends what is said, or something follows it. */
export type ClipPlace = 'inside' | 'end';

/** Names the clips at hand: for each text, in normal form, where it can stand. */
export type ClipIndex = ReadonlyMap<string, readonly ClipPlace[]>;

/** A clip to be played, by its text in normal form and the place that it was made for, or the pause of a comma. */
export type PlannedClip = { readonly kind: 'clip'; readonly text: string; readonly place: ClipPlace } | { readonly kind: 'pause' };

/** Lower case, words only, one space between them: "Forty-seven newton metres." becomes "forty seven newton metres". */
export function normalClipText(text: string): string {
  return text
    .toLowerCase()
    .replace(/[’]/gu, "'")
    .replace(/[^\p{L}\p{N}' ]+/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
}

/**
 * Covers a text with the fewest clips, with a pause at each comma, or gives null when some word has none: then the
 * whole of it is better spoken by the synthesiser than half of it.
 */
export function planClips(text: string, index: ClipIndex): readonly PlannedClip[] | null {
  const whole = normalClipText(text);
  // A sentence that was rendered in one piece has its commas in it.
  if (index.get(whole)?.includes('end')) return [{ kind: 'clip', text: whole, place: 'end' }];
  const planned: PlannedClip[] = [];
  for (const phrase of text.split(/[,:;]+(?=\s|$)/u)) {
    const words = normalClipText(phrase).split(' ').filter(Boolean);
    if (words.length === 0) continue;
    const clips = coverWords(words, index);
    if (!clips) return null;
    if (planned.length > 0) planned.push({ kind: 'pause' });
    planned.push(...clips);
  }
  return planned.length > 0 ? planned : null;
}

function coverWords(words: readonly string[], index: ClipIndex): readonly PlannedClip[] | null {
  /** The fewest clips that cover the words from each place to the end; undefined where nothing does. */
  const best: (readonly PlannedClip[] | undefined)[] = new Array<undefined>(words.length);
  best.push([]);
  for (let from = words.length - 1; from >= 0; from--) {
    for (let to = words.length; to > from; to--) {
      const rest = best[to];
      const covered = words.slice(from, to).join(' ');
      const places = index.get(covered);
      if (!rest || !places || rest.length + 1 >= (best[from]?.length ?? Infinity)) continue;
      const wanted: ClipPlace = to === words.length ? 'end' : 'inside';
      const place = places.includes(wanted) ? wanted : places[0];
      if (place) best[from] = [{ kind: 'clip', text: covered, place }, ...rest];
    }
  }
  return best[0] ?? null;
}
