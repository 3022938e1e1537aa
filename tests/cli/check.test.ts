import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/check.ts';
import type { Terminal } from '../../src/cli/verb.ts';
import { withSteps } from '../procedure/written.ts';

async function runCheck(...args: readonly string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const terminal: Terminal = {
    out: (line) => out.push(line),
    err: (line) => err.push(line),
    lines: () => ({ [Symbol.asyncIterator]: () => ({ next: () => Promise.resolve({ done: true, value: undefined }) }) }),
  };
  const code = await check.run(args, terminal);
  return { code, out, err };
}

async function fileWith(text: string): Promise<string> {
  const file = join(await mkdtemp(join(tmpdir(), 'undertray-')), 'practice.yaml');
  await writeFile(file, text);
  return file;
}

const shipped = 'procedures/bench-flange.yaml';

describe('check', () => {
  it('ends with 0 when nothing is wrong', async () => {
    expect(await runCheck(shipped)).toEqual({ code: 0, out: [`${shipped}: no errors, no warnings, no hints`], err: [] });
  });

  it('prints each problem with its place, and ends with 1', async () => {
    const file = await fileWith(withSteps('- { id: a }\n- { id: b, do: B., see: }'));
    const { code, out } = await runCheck(file);
    expect(code).toBe(1);
    expect(out).toEqual([
      `${file}:15:9: error missing: found nothing, expected text of 1 to 400 characters (stages[0].steps[0].do)`,
      expect.stringContaining(`${file}:16:`),
      `${file}: 2 errors, no warnings, no hints`,
    ]);
  });

  it('ends with 1 on an error of the lint, and with 0 on warnings alone', async () => {
    const wrong = await fileWith(withSteps('- { id: a, do: A., hold: [{ ask: Well? }] }'));
    const doubtful = await fileWith(withSteps('- { id: a, do: A. }\n- { id: b, do: A. }'));
    expect((await runCheck(wrong)).code).toBe(1);
    const { code, out } = await runCheck(doubtful);
    expect([code, out.at(-1)]).toEqual([0, `${doubtful}: no errors, 1 warning, no hints`]);
  });

  it('gives one JSON array for all files', async () => {
    const file = await fileWith(withSteps('- { id: a }'));
    const { code, out } = await runCheck(shipped, file, '--json');
    expect(code).toBe(1);
    expect(JSON.parse(out.join('\n'))).toMatchObject([
      { file: shipped, problems: [], findings: [] },
      { file, problems: [{ code: 'missing', line: 15, column: 9 }], findings: [] },
    ]);
  });

  it('prints the JSON Schema for editors', async () => {
    const { code, out } = await runCheck('--schema');
    expect([code, (JSON.parse(out.join('\n')) as { title: string }).title]).toEqual([0, 'Undertray procedure, version 1']);
  });

  it('ends with 2 when a file cannot be read, after checking the others', async () => {
    const { code, out, err } = await runCheck('no-such-file.yaml', shipped);
    expect([code, out.length, err.length]).toEqual([2, 1, 1]);
  });

  it.each([[[]], [['--loud', shipped]], [['--json']]])('ends with 2 on %j', async (args) => {
    expect((await runCheck(...args)).code).toBe(2);
  });
});
