import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, expectTypeOf, it } from 'vitest';
import type { z } from 'zod';
import { headerLine, jobHeader, parseHeader } from '../../src/journal/header.ts';
import { planSchema } from '../../src/journal/plan-schema.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { samplePlan } from './sample.ts';

const folder = new URL('../../procedures/', import.meta.url);

function shippedPlans(): readonly (readonly [string, Plan])[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) => {
      const parsed = parseProcedure(readFileSync(new URL(name, folder), 'utf8'), name);
      if (!parsed.ok) throw new Error(`${name} does not parse`);
      return [...parsed.file.builds.keys()].map((build) => {
        const planned = planJob(parsed.file, { build, crib: null, today: '2031-04-14', spokenUnit: null });
        if (!planned.ok) throw new Error(`${name} ${build} does not plan`);
        return [`${name} ${build}`, planned.plan] as const;
      });
    });
}

/** The same type with lists and members that may be written, which is how a schema's type comes. */
type Writable<Type> = Type extends string | number | boolean | null
  ? Type
  : Type extends readonly (infer Entry)[]
    ? Writable<Entry>[]
    : { -readonly [Key in keyof Type]: Writable<Type[Key]> };

describe('a plan from elsewhere', () => {
  it('is what the planner makes, no more and no less', () => {
    type Read = z.infer<typeof planSchema>;
    expectTypeOf<Read>().toExtend<Plan>();
    expectTypeOf<Writable<Plan>>().toExtend<Read>();
  });

  it.each(shippedPlans())('comes back through a header as it was: %s', (_, plan) => {
    const parsed = parseHeader(headerLine(jobHeader('job', plan, null)));
    expect(parsed).toMatchObject({ ok: true, isChanged: false, isCanonical: true });
    expect(parsed.ok && parsed.header.plan).toEqual(JSON.parse(JSON.stringify(plan)));
  });

  it('is refused when a pass names a position that is not there', () => {
    const bolts = samplePlan.steps[1]!;
    const group = bolts.groups[0]!;
    const wrong = { ...samplePlan, steps: [{ ...bolts, groups: [{ ...group, positions: group.positions.slice(0, 2) }] }] };
    expect(planSchema.safeParse(wrong).success).toBe(false);
  });
});
