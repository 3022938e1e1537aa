import { check } from './check.ts';
import { draft } from './draft.ts';
import { exportLog } from './export.ts';
import { figure } from './figure.ts';
import { kit } from './kit.ts';
import { order } from './order.ts';
import { rehearse } from './rehearse.ts';
import { report } from './report.ts';
import { sheet } from './sheet.ts';
import type { Verb } from './verb.ts';
import { verify } from './verify.ts';

/** Every verb of the terminal face, in the order of a job's life. */
export const verbs: readonly Verb[] = [draft, check, kit, rehearse, figure, order, verify, exportLog, sheet, report];
