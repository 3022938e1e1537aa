import { describe, expect, it } from 'vitest';
import type { ClipPlace, PlannedClip } from '../../../src/speech/synthesis/clip-plan.ts';
import { normalClipText, planClips } from '../../../src/speech/synthesis/clip-plan.ts';

const index = new Map<string, readonly ClipPlace[]>([
  ['four', ['inside', 'end']],
  ['seven', ['inside', 'end']],
  ['forty seven', ['end']],
  ['newton metres', ['end']],
  ['newton', ['end']],
  ['metres', ['end']],
  ['snug no more', ['end']],
  ['no more', ['inside']],
]);

const shown = (planned: readonly PlannedClip[] | null) =>
  planned?.map((clip) => (clip.kind === 'pause' ? ',' : `${clip.text} (${clip.place})`)) ?? null;

describe('covering a text with clips', () => {
  it('takes the fewest clips, and for each the one made for its place', () => {
    expect(shown(planClips('Four seven', index))).toEqual(['four (inside)', 'seven (end)']);
    expect(shown(planClips('forty-seven newton metres.', index))).toEqual(['forty seven (end)', 'newton metres (end)']);
  });

  it('pauses at commas', () => {
    expect(shown(planClips('Four seven, forty-seven', index))).toEqual(['four (inside)', 'seven (end)', ',', 'forty seven (end)']);
  });

  it('takes a sentence that was rendered in one piece, commas and all', () => {
    expect(shown(planClips('Snug, no more.', index))).toEqual(['snug no more (end)']);
  });

  it('takes a clip of the other place rather than none', () => {
    expect(shown(planClips('no more', index))).toEqual(['no more (inside)']);
  });

  it('gives up when one word has no clip, and for a text without words', () => {
    expect(planClips('four seven foot pounds', index)).toBeNull();
    expect(planClips(' … ', index)).toBeNull();
  });

  it('compares words, not spelling marks', () => {
    expect(normalClipText('  Forty-Seven, “newton” metres! ')).toBe('forty seven newton metres');
    expect(normalClipText('It’s 5')).toBe("it's 5");
  });
});
