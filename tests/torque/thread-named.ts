import { parseThread } from '../../src/torque/threads.ts';
import type { Thread } from '../../src/torque/threads.ts';

/** A thread that the test knows to be one. */
export function threadNamed(text: string): Thread {
  const thread = parseThread(text);
  if (!thread.ok) throw new Error(`${text}: ${thread.problem.code}`);
  return thread.value;
}
