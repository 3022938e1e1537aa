/** What the start page shows of a procedure before anybody opens it. */
export interface ShelfLabel {
  /** Of the file. */
  readonly name: string;
  readonly id: string;
  readonly title: string;
  readonly vehicle: string;
  readonly language: string;
  readonly builds: readonly (readonly [id: string, name: string])[];
  readonly isOwn: boolean;
}

// The build reads the files that ship (vite.config.ts), so that a phone need not read them all to show their titles.
const shipped = import.meta.glob<Omit<ShelfLabel, 'isOwn'>>('../../procedures/*.yaml', { query: '?label', import: 'default', eager: true });

export const shippedLabels: readonly ShelfLabel[] = inShelfOrder(Object.values(shipped).map((label) => ({ ...label, isOwn: false })));

/**
 * The exercise that everybody begins with comes first, then by title. Accents apart by plain comparison: the browser's collator costs a slow
 * phone a tenth of a second before it shows anything.
 */
export function inShelfOrder(labels: readonly ShelfLabel[]): readonly ShelfLabel[] {
  const key = ({ id, title }: ShelfLabel) => `${id === 'bench-flange' ? 0 : 1}${title.normalize('NFD').toLowerCase()}`;
  return labels.toSorted((a, b) => (key(a) < key(b) ? -1 : 1));
}
