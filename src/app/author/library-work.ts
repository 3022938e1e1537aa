import { nodeAt } from '../../procedure/plain-tree.ts';
import { readYaml } from '../../procedure/yaml-tree.ts';
import type { WorkPiece } from '../own-files.ts';
import { canBeRun, checkText } from './check.ts';
import type { AuthorWords } from './words/en.ts';

export { shippedText } from '../library.ts';
export { readShare } from './share.ts';
export { freeName, skeleton } from './skeleton.ts';

/** A procedure of the author's, as the library lists it. */
export interface Listed {
  readonly name: string;
  readonly title: string;
  readonly changed: number;
  /** How far it is, in words. */
  readonly state: string;
}

/** The author's pieces, the one worked on last first. `runnable` are the texts that jobs use, by name. */
export function listed(
  pieces: readonly WorkPiece[],
  runnable: ReadonlyMap<string, string>,
  text: AuthorWords['library'],
): readonly Listed[] {
  const rows = pieces.map(({ name, text: written, changed }): Listed => {
    const checked = checkText(written, name);
    const errors = checked.marks.filter(({ severity }) => severity === 'error').length;
    const runs = runnable.get(name);
    const state = [
      runs === undefined ? text.notOnJobs : runs === written ? text.onJobs : text.onJobsOlder,
      checked.unanswered > 0 ? text.open_questions(checked.unanswered) : null,
      errors > 0 && !canBeRun(checked) ? text.errors(errors) : null,
    ];
    return { name, title: titleOf(written, name), changed, state: state.filter((part) => part !== null).join(' · ') };
  });
  return rows.sort((a, b) => b.changed - a.changed);
}

function titleOf(written: string, name: string): string {
  const { root } = readYaml(written, name);
  const title = root === null ? null : nodeAt(root, ['title']);
  return title?.kind === 'value' && typeof title.value === 'string' && title.value.trim() !== '' ? title.value : name;
}
