import type { ProcedureFile } from '../procedure/parse.ts';
import { parseProcedure } from '../procedure/parse.ts';
import type { Planned } from '../procedure/plan.ts';
import { planJob } from '../procedure/plan.ts';
import { loadCrib } from './crib-store.ts';
import { dropRunnable, keepRunnable, runnableFiles } from './own-files.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { Problem } from '../procedure/problem.ts';
import type { ShelfLabel } from './shelf.ts';
import type { TorqueUnit } from '../torque/quantities.ts';

export interface Refused {
  readonly name: string;
  readonly problems: readonly Problem[];
}

const shipped = import.meta.glob<string>('../../procedures/*.yaml', { query: '?raw', import: 'default' });

/** The procedures that ship, as they are written. */
export const shippedFiles = (): Promise<readonly { readonly name: string; readonly text: string }[]> =>
  Promise.all(Object.entries(shipped).map(async ([path, load]) => ({ name: path.slice(path.lastIndexOf('/') + 1), text: await load() })));

/** The text of one procedure that ships, by the name of its file. */
export const shippedText = async (name: string): Promise<string | undefined> =>
  Object.entries(shipped).find(([path]) => path.endsWith(`/${name}`))?.[1]();

/** The procedures that ship, read. */
export async function shippedShelf(): Promise<readonly ProcedureFile[]> {
  return (await shippedFiles()).flatMap(({ name, text }) => {
    const parsed = parseProcedure(text, name);
    return parsed.ok ? [parsed.file] : [];
  });
}

/** One procedure of the shelf by the name of its file; null where there is none, or none that reads. */
export async function shelvedFile(name: string): Promise<ProcedureFile | null> {
  const own = await runnableFiles().catch(() => []);
  const text = own.find(([one]) => one === name)?.[1] ?? (await shippedText(name));
  if (text === undefined) return null;
  const parsed = parseProcedure(text, name);
  return parsed.ok ? parsed.file : null;
}

/** The person's own procedures on the shelf. Those that no longer read (a newer format, say) are told, not dropped. */
export async function ownShelf(): Promise<{ readonly labels: readonly ShelfLabel[]; readonly refused: readonly Refused[] }> {
  const labels: ShelfLabel[] = [];
  const refused: Refused[] = [];
  for (const [name, text] of await runnableFiles().catch(() => [])) {
    const parsed = parseProcedure(text, name);
    if (parsed.ok) labels.push(labelOf(parsed.file));
    else refused.push({ name, problems: parsed.problems });
  }
  return { labels, refused };
}

function labelOf({ name, id, title, vehicle, language, builds }: ProcedureFile): ShelfLabel {
  return { name, id, title, vehicle, language, builds: [...builds], isOwn: true };
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
