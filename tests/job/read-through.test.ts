import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readStep, readThrough } from '../../src/job/read-through.ts';
import { startSession } from '../../src/job/session.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import type { Line } from '../../src/phrasing/lines.ts';
import { say } from '../../src/phrasing/say.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import { fullPlan, makePlan } from './plans.ts';

const text = readFileSync(`${import.meta.dirname}/../../procedures/bench-flange.yaml`, 'utf8');
const parsed = parseProcedure(text, 'bench-flange.yaml');
if (!parsed.ok) throw new Error('the shipped procedure does not read');
const planned = planJob(parsed.file, { build: 'K', crib: null, spokenUnit: null, today: '2026-01-01' });
if (!planned.ok) throw new Error('the shipped procedure cannot be planned');
const { plan } = planned;

const words = (lines: readonly Line[]) => lines.map((line) => say(line, 'en').show).filter((shown) => shown !== '');

it('reads every step once, between the opening and what follows', () => {
  const readings = readThrough(plan);
  expect(readings.map(({ step }) => step?.id ?? null)).toEqual([null, ...plan.steps.map(({ id }) => id), null]);
  expect(readings.every(({ lines }) => words(lines).length > 0)).toBe(true);
});

it('says each pass of a group, and not each fastener', () => {
  const step = plan.steps.find(({ id }) => id === 'tighten-flange')!;
  expect(readStep(plan, step).map(({ kind }) => kind)).toEqual(['step', 'group', 'pass', 'pass', 'pass', 'pass']);
});

it('reads all that a procedure can ask for, in the order in which it is worked, and heads nothing that is not there', () => {
  const kinds = readThrough(fullPlan()).map(({ step, lines }) => [step?.id ?? null, lines.map(({ kind }) => kind).join(' ')]);
  expect(kinds).toEqual([
    [null, 'welcome caution before before kit-begins kit-item kit-item'],
    ['offer-up', 'step'],
    ['draw', 'caution step group pass'],
    ['backlash', 'step measure'],
    ['seal', 'step wait-started'],
    ['awkward', 'step group group'],
    ['turn', 'step hold'],
    ['cool', 'step wait-started'],
    ['lower', 'step'],
    ['wipe', 'step'],
    ['look', 'step hold'],
    [null, 'follow-up'],
  ]);
  expect(readThrough(makePlan([{ id: 'one' }])).map(({ lines }) => lines.map(({ kind }) => kind))).toEqual([['welcome'], ['step']]);
});

it('counts what is asked before the work, and reads the warnings of a step before its other cautions', () => {
  const [opening] = readThrough(fullPlan());
  expect(opening?.lines).toMatchObject([
    { kind: 'welcome', steps: 8 },
    { kind: 'caution', acknowledge: true },
    { kind: 'before', number: 1, of: 2 },
    { kind: 'before', number: 2, of: 2 },
    { kind: 'kit-begins', items: 2 },
    { kind: 'kit-item', number: 1, of: 2 },
    { kind: 'kit-item', number: 2, of: 2 },
  ]);
  const cautions = [
    { id: 'hot', signal: 'CAUTION', text: 'The pipe is hot.' },
    { id: 'spring', signal: 'WARNING', text: 'The spring is loaded.' },
  ] as const;
  const warned = makePlan([{ id: 'one', cautions }]);
  expect(readStep(warned, warned.steps[0]!)).toMatchObject([
    { caution: { id: 'spring' }, acknowledge: true },
    { caution: { id: 'hot' }, acknowledge: false },
    { kind: 'step' },
  ]);
});

it('says nothing that the job would not say', async () => {
  const journal = memoryJournal({ session: 'test' });
  const said = new Set<string>();
  let mono = 0;
  const session = startSession(plan, [], {
    now: () => ({ moment: { wall: (mono += 1000), offset: 0, mono }, session: 'test' }),
    store: async (happenings) => {
      const stored =
        happenings[0]?.event.type === 'opened' ? await journal.begin('job', plan, happenings) : await journal.append('job', happenings);
      return stored.ok ? { ok: true, events: stored.recorded } : { ok: false, code: stored.code };
    },
    say: (lines) => words(lines).forEach((line) => said.add(line)),
    set: () => undefined,
    wants: () => undefined,
    changed: () => undefined,
  });
  await session.begin({ person: 'A tester', group: null });
  for (let turn = 0; turn < 200 && session.state() !== 'closing' && session.state() !== 'signing'; turn += 1) {
    const state = session.state();
    if (state === 'measuring') await session.intent({ type: 'number', value: 2, unit: 'mm' });
    else if (state === 'checking' || state === 'confirming') await session.intent({ type: 'yes' });
    else await session.intent({ type: 'done', count: 1 });
  }
  const read = readThrough(plan)
    .slice(0, -1)
    .flatMap(({ lines }) => words(lines));
  expect(read.filter((line) => !said.has(line))).toEqual([]);
  session.end();
});
