import type { ProcedureFile } from '../procedure/parse.ts';
import { parseProcedure } from '../procedure/parse.ts';
import type { Planned } from '../procedure/plan.ts';
import { planJob } from '../procedure/plan.ts';
import { loadCrib } from './crib-store.ts';
import { dropRunnable, keepRunnable, runnableFiles } from './own-files.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { Problem } from '../procedure/problem.ts';
import type { TorqueUnit } from '../torque/quantities.ts';

/** A procedure that can be started: one that ships, or a file of the person's own. */
export interface Shelved {
  readonly file: ProcedureFile;
  readonly text: string;
  readonly isOwn: boolean;
}

export interface Refused {
  readonly name: string;
  readonly problems: readonly Problem[];
}

const shipped = import.meta.glob<string>('../../procedures/*.yaml', { query: '?raw', import: 'default' });

/** The procedures that ship, as they are written. */
export const shippedFiles = (): Promise<readonly { readonly name: string; readonly text: string }[]> =>
  Promise.all(Object.entries(shipped).map(async ([path, load]) => ({ name: path.slice(path.lastIndexOf('/') + 1), text: await load() })));

/** Everything on the shelf. Own files that no longer read (a newer format, say) are told, not dropped. */
export async function loadShelf(): Promise<{ readonly shelf: readonly Shelved[]; readonly refused: readonly Refused[] }> {
  const texts = (await shippedFiles()).map((file) => ({ ...file, isOwn: false }));
  // Without storage (a private window, say) the shipped ones still work.
  const own = await runnableFiles().catch(() => []);
  const shelf: Shelved[] = [];
  const refused: Refused[] = [];
  for (const { name, text, isOwn } of [...texts, ...own.map(([name, text]) => ({ name, text, isOwn: true }))]) {
    const parsed = parseProcedure(text, name);
    if (parsed.ok) shelf.push({ file: parsed.file, text, isOwn });
    else refused.push({ name, problems: parsed.problems });
  }
  shelf.sort(
    (a, b) => Number(b.file.id === 'bench-flange') - Number(a.file.id === 'bench-flange') || a.file.title.localeCompare(b.file.title),
  );
  return { shelf, refused };
}

export type Shelving =
  { readonly ok: true; readonly title: string; readonly kept: boolean } | { readonly ok: false; readonly refused: Refused };

/** Reads a procedure file and keeps it on this device. Nothing of a file that has problems is kept. */
export async function shelve(name: string, text: string): Promise<Shelving> {
  const parsed = parseProcedure(text, name);
  if (!parsed.ok) return { ok: false, refused: { name, problems: parsed.problems } };
  const planned = [...parsed.file.builds.keys()].map((build) => planJob(parsed.file, { build, spokenUnit: null, crib: null, today: '' }));
  const problems = planned.flatMap((plan) => (plan.ok ? [] : plan.problems));
  if (problems.length > 0) return { ok: false, refused: { name, problems } };
  const kept = await keepRunnable(name, text).then(
    () => true,
    () => false,
  );
  return { ok: true, title: parsed.file.title, kept };
}

export const unshelve = dropRunnable;

export const countFasteners = (plan: Plan): number =>
  plan.steps.reduce((sum, step) => sum + step.groups.reduce((inner, group) => inner + group.positions.length, 0), 0);

/** The plan for one build, in the person's unit and with their tools; `today` is an ISO date, for calibrations that are due. */
export async function planFor(
  file: ProcedureFile,
  build: string,
  settings: { readonly unit: TorqueUnit | null },
  today: string,
): Promise<Planned> {
  return planJob(file, { build, spokenUnit: settings.unit, crib: await loadCrib(), today });
}
