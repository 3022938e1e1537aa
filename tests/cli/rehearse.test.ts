import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { rehearse } from '../../src/cli/rehearse.ts';
import { runVerb } from './terminal.ts';

const axle = 'procedures/brindle-b4-final-drive.yaml';
const flange = 'procedures/bench-flange.yaml';
let folder: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'rehearse-'));
});
afterEach(() => rm(folder, { recursive: true }));

describe.each(['K', 'M'])('the final-drive procedure, build %s', (build) => {
  it('is completed from its script, every fastener counted, and signed', async () => {
    const journal = join(folder, 'record.jsonl');
    const script = `tests/cli/scripts/final-drive-${build}.txt`;
    const ran = await runVerb(rehearse, [axle, '--build', build, '--person', 'Alex', '--script', script, '--journal', journal]);
    expect(ran.err).toEqual([]);
    expect(ran.code).toBe(0);
    expect(ran.out.at(-1)).toBe('The job is closed.');
    const types = (await readFile(journal, 'utf8'))
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => (JSON.parse(line) as { event: { type: string } }).event.type);
    expect(types.filter((type) => type === 'fastener-tightened').length).toBeGreaterThan(60);
    expect(types.filter((type) => type === 'step-finished').length).toBeGreaterThanOrEqual(35);
    expect(types.at(-1)).toBe('signed');
  });
});

it('says build K and build M their own torques and sockets', async () => {
  const torques = async (build: string) => {
    const { out } = await runVerb(rehearse, [
      axle,
      '--build',
      build,
      '--person',
      'Alex',
      '--script',
      `tests/cli/scripts/final-drive-${build}.txt`,
    ]);
    return out.filter((line) => line.includes('newton metres'));
  };
  expect(await torques('K')).not.toEqual(await torques('M'));
});

it('goes on with an open job of the same record, at the same fastener', async () => {
  const journal = join(folder, 'record.jsonl');
  const upTo = ['yes', 'yes', 'yes', 'yes', 'yes', 'skip the step', 'yes', 'step done', 'yes', 'step done', 'two done'];
  const first = await runVerb(rehearse, [flange, '--build', 'K', '--journal', journal, ...upTo.flatMap((text) => ['--say', text])]);
  const second = await runVerb(rehearse, [flange, '--build', 'K', '--journal', journal, '--say', 'how many left']);
  expect(first.code).toBe(0);
  expect(second.out[0]).toMatch(/^Welcome back/u);
  expect(second.out.at(-1)).toMatch(/Left: six of eight\.$/u);
});

it('takes what is typed from standard input', async () => {
  const ran = await runVerb(rehearse, [flange, '--build', 'K'], ['yes', 'what can I say']);
  expect(ran.code).toBe(0);
  expect(ran.out.length).toBeGreaterThan(2);
});

it('ends with 1 when something is not understood, and when a script stops before the close', async () => {
  const ran = await runVerb(rehearse, [flange, '--build', 'K', '--say', 'where is my lunch']);
  expect(ran.code).toBe(1);
});

it.each([
  [[], /Which procedure/u],
  [[flange], /Which build\? --build K or --build M/u],
  [[flange, '--build', 'Z'], /Z/u],
  [['no-such-file.yaml', '--build', 'K'], /cannot be read/u],
  [[flange, '--build', 'K', '--nonsense'], /nonsense/u],
  [[flange, '--build', 'K', '--language', 'xx'], /en or fr/u],
])('ends with 2 and says what is expected for %j', async (args, message) => {
  const ran = await runVerb(rehearse, args);
  expect(ran.code).toBe(2);
  expect(ran.err.join('\n')).toMatch(message);
});
