import type { KeyPath } from '../../../procedure/plain-tree.ts';
import { formatHelp } from '../text/editing.ts';

/** The order of an entry's keys, as the format has them. */
export const orderAt = (path: KeyPath): readonly string[] =>
  formatHelp()
    .keysAt(path)
    .map(({ key }) => key);
