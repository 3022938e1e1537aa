import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { advanceTo, hearText } from '../../../src/app/author/rehearsal.ts';
import { skeleton } from '../../../src/app/author/skeleton.ts';
import type { Runner } from '../../../src/app/work/runner.ts';
import { startRunner } from '../../../src/app/work/runner.ts';
import { memoryJournal } from '../../../src/journal/memory.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { editText } from '../../../src/procedure/edits.ts';
import { parseProcedure } from '../../../src/procedure/parse.ts';
import { planJob } from '../../../src/procedure/plan.ts';
import type { Plan } from '../../../src/procedure/plan-types.ts';

function planOf(text: string): Plan {
  const parsed = parseProcedure(text, 'practice.yaml');
  if (!parsed.ok) throw new Error('the procedure does not read');
  const planned = planJob(parsed.file, { build: [...parsed.file.builds.keys()][0] ?? '', crib: null, spokenUnit: null, today: '' });
  if (!planned.ok) throw new Error('the procedure cannot be planned');
  return planned.plan;
}

async function rehearse(plan: Plan): Promise<Runner> {
  let mono = 0;
  const runner = startRunner({
    journal: memoryJournal({ session: 'test' }),
    job: 'job',
    plan,
    events: [],
    now: () => ({ moment: { wall: (mono += 1000), offset: 0, mono }, session: 'test' }),
    words: (line) => packFor('en').say(line),
    speak: () => undefined,
    hush: () => undefined,
    isSpeaking: () => false,
    set: () => undefined,
  });
  await runner.begin({ person: null, group: null });
  return runner;
}

const shipped = (name: string) => planOf(readFileSync(`${import.meta.dirname}/../../../procedures/${name}.yaml`, 'utf8'));

describe('a rehearsal that begins in the middle', () => {
  it.each(['bench-flange', 'brindle-b4-wheels'])('reaches every step of %s', async (name) => {
    const plan = shipped(name);
    const runner = await rehearse(plan);
    for (const step of plan.steps.filter(({ side }) => side === null)) {
      await advanceTo(runner, step.index);
      expect(runner.view().dialogue.job.work.cursor?.step).toBe(step.index);
    }
    runner.end();
  });

  it('reaches a group of fasteners of which only the number is known', async () => {
    const text = skeleton({ title: 'Refit', vehicle: 'Brindle B4', author: 'A tester' }, 'en');
    const step = { id: 'bolt-on', do: 'Bolt it on.', fasteners: [{ id: 'bolts', name: 'carrier bolt', count: 2 }] };
    const edited = editText(text, [{ kind: 'insert', path: ['stages', 0, 'steps'], index: 1, value: step }]);
    const runner = await rehearse(planOf(edited.ok ? edited.text : ''));
    await advanceTo(runner, 1);
    expect(runner.view().state).toBe('fastening');
    await hearText(runner, 'two done', 'en', '');
    expect(runner.view().state).not.toBe('fastening');
    runner.end();
  });
});

it('answers what is typed as it would answer what is said', async () => {
  const runner = await rehearse(shipped('bench-flange'));
  await advanceTo(runner, 3);
  await hearText(runner, 'what torque', 'en', '');
  expect(runner.view().captions.at(-1)?.text).toContain('No torque in this pass');
  expect(runner.view().heard).toEqual({ kind: 'understood', text: 'what torque' });
  await hearText(runner, 'sing me a song', 'en', '');
  expect(runner.view().heard).toEqual({ kind: 'not-understood', text: 'sing me a song' });
  runner.end();
});
