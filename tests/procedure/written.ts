import { expect } from 'vitest';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { parseProcedure, type ProcedureFile } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { problemText, type Problem } from '../../src/procedure/problem.ts';
import type { Finding } from '../../src/procedure/finding.ts';

/** The head of a procedure, 10 lines long; what follows begins in line 11. */
export const head = `undertray: 1
id: practice
title: Practice
vehicle: Brindle B4 light van
builds: { K: short, M: long }
source: Invented.
author: A tester
revision: 1
supports:
  - { id: stands, name: axle stand }
`;

/** A procedure of one stage with these steps, given as YAML at the indentation of a list of steps. */
export function withSteps(steps: string, more = ''): string {
  return `${head}${more}stages:\n  - id: only\n    title: Only stage\n    steps:\n${indented(steps, 6)}\n`;
}

/** A procedure whose only step has this group of fasteners, given as the lines of an entry. */
export function withGroup(group: string, more = ''): string {
  return withSteps(`- id: tighten\n  do: Tighten it.\n  fasteners:\n    -\n${indented(group, 6)}`, more);
}

export function indented(text: string, by: number): string {
  return text
    .trim()
    .split('\n')
    .map((line) => ' '.repeat(by) + line)
    .join('\n');
}

export function read(text: string): ProcedureFile {
  const parsed = parseProcedure(text, 'practice.yaml');
  expect(parsed.ok ? [] : parsed.problems.map(problemText)).toEqual([]);
  if (!parsed.ok) throw new Error('unreachable');
  return parsed.file;
}

export function problemsOf(text: string): readonly Problem[] {
  const parsed = parseProcedure(text, 'practice.yaml');
  return parsed.ok ? [] : parsed.problems;
}

export function planOf(text: string, build = 'K'): Plan {
  const planned = planJob(read(text), { build, crib: null, spokenUnit: null, today: '2026-01-01' });
  expect(planned.ok ? [] : planned.problems.map(problemText)).toEqual([]);
  if (!planned.ok) throw new Error('unreachable');
  return planned.plan;
}

export function planProblems(text: string, build = 'K'): readonly Problem[] {
  const planned = planJob(read(text), { build, crib: null, spokenUnit: null, today: '2026-01-01' });
  return planned.ok ? [] : planned.problems;
}

export function findings(text: string): readonly Finding[] {
  return lintProcedure(read(text));
}
