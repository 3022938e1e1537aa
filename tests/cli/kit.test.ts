import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kit } from '../../src/cli/kit.ts';
import type { Terminal } from '../../src/cli/verb.ts';
import type { KitItem } from '../../src/procedure/plan-types.ts';
import { formatCrib } from '../../src/torque/crib-file.ts';
import { smallCrib } from '../procedure/crib.ts';

async function runKit(...args: readonly string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const terminal: Terminal = {
    out: (line) => out.push(line),
    err: (line) => err.push(line),
    lines: () => ({ [Symbol.asyncIterator]: () => ({ next: () => Promise.resolve({ done: true, value: undefined }) }) }),
  };
  const code = await kit.run(args, terminal);
  return { code, out, err };
}

async function cribFile(text: string): Promise<string> {
  const file = join(await mkdtemp(join(tmpdir(), 'undertray-')), 'crib.json');
  await writeFile(file, text);
  return file;
}

const axle = 'procedures/brindle-b4-final-drive.yaml';
const flange = 'procedures/bench-flange.yaml';

describe('kit', () => {
  it('lists what the job takes, with the numbers of the steps', async () => {
    const { code, out } = await runKit(flange, '--build', 'M');
    expect(code).toBe(0);
    expect(out).toContain('  [ ] 1 × 18 mm socket, 1/2 drive: steps 4 7');
    expect(out).toContain('  [ ] 1 × flange gasket (single use): step 1');
    expect(out.some((line) => /^Tool changes: \d+$/.test(line))).toBe(true);
  });

  it('says what a crib lacks and what would serve instead, and ends with 1', async () => {
    const { code, out } = await runKit(axle, '--build', 'K', '--crib', await cribFile(formatCrib(smallCrib)), '--today', '2026-01-01');
    expect(code).toBe(1);
    expect(out).toContain('  [x] 1 × 18 mm socket, 1/2 drive: steps 20 21 23');
    expect(out).toContain('  [!] 1 × 13 mm socket, 3/8 drive: steps 11 32, lacking; instead: 13 mm socket, 1/2 drive');
    expect(out).toContain('Before you start');
  });

  it('suggests moving free steps where that saves tool changes', async () => {
    const { out } = await runKit(axle, '--build', 'M', '--json');
    const { toolChanges } = JSON.parse(out.join('\n')) as {
      toolChanges: { count: number; suggestion: { moved: string[]; count: number } };
    };
    expect(toolChanges.suggestion.count).toBeLessThan(toolChanges.count);
    expect(toolChanges.suggestion.moved).toEqual(['harness-brackets']);
  });

  it('gives one JSON object', async () => {
    const { out } = await runKit(axle, '--build', 'K', '--crib', await cribFile(formatCrib(smallCrib)), '--today', '2026-01-01', '--json');
    const told = JSON.parse(out.join('\n')) as { kit: KitItem[]; lacking: string[] };
    expect(told.lacking).toEqual(told.kit.filter(({ owned }) => owned === false).map(({ id }) => id));
  });

  it.each([
    ['no build', [flange]],
    ['an unknown build', [flange, '--build', 'Q']],
    ['an unknown option', [flange, '--build', 'K', '--loud']],
    ['no such file', ['none.yaml', '--build', 'K']],
    ['no such crib', [flange, '--build', 'K', '--crib', 'none.json']],
    ['a date that is none', [flange, '--build', 'K', '--today', 'soon']],
  ])('ends with 2 on %s', async (_what, args) => {
    const { code, err } = await runKit(...args);
    expect([code, err.length > 0]).toEqual([2, true]);
  });

  it('ends with 2 on a crib that is none', async () => {
    expect(await runKit(flange, '--build', 'K', '--crib', await cribFile('{"format": 99}'))).toMatchObject({ code: 2 });
  });

  it.each([
    [[], 'found no file'],
    [[flange], 'found no --build'],
    [[flange, 'more.yaml', '--build', 'K'], 'found "more.yaml" after the file'],
    [[flange, '--build', 'K', '--today', '2026-02-30'], '--today: found "2026-02-30", expected a date'],
  ])('says of %j what was found and what was expected', async (args, complaint) => {
    const { code, err } = await runKit(...args);
    expect(code).toBe(2);
    expect(err.join('\n')).toContain(complaint);
  });
});
