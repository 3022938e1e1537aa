import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { logLines } from '../../demo-data/log-lines.ts';
import { plansIn } from '../../demo-data/plans.ts';
import { report } from '../../src/cli/report.ts';
import { workshopRuns } from '../../src/review/demonstration/workshop.ts';
import { scratchFolder } from './scratch-folder.ts';
import { runVerb } from './terminal.ts';

const { path } = scratchFolder();
const plans = plansIn('procedures').filter(({ procedure }) => ['bench-flange', 'brindle-b4-wheels'].includes(procedure.id));
const logs = [...workshopRuns(plans, { seed: 7, runs: 3 })].map((run) => ({
  name: `${run.job}.jsonl`,
  text: `${logLines(run).join('\n')}\n`,
}));

function folder(name: string, files: readonly { readonly name: string; readonly text: string | Uint8Array }[]): string {
  mkdirSync(join(path(name), 'deeper'), { recursive: true });
  for (const file of files) writeFileSync(join(path(name), file.name), file.text);
  return path(name);
}

const workshop = folder('workshop', logs);

describe('report', () => {
  it('says within the first lines what stands out, where time goes, who is stuck and whether it gets better', async () => {
    const { code, out, err } = await runVerb(report, [workshop]);
    expect([code, err]).toEqual([0, []]);
    expect(out[0]).toMatch(/^144 runs, \d+ signed, 24 people, 2025-01-13 to 2025-/);
    const screenful = out.slice(0, 24).join('\n');
    expect(screenful).toContain('WHAT STANDS OUT');
    expect(screenful).toMatch(/- Bellows takes \d+ % longer \(\d+ % to \d+ %\) than Anvil, person by person\. That does not say why\./);
    expect(screenful).toMatch(/- “.+” \((Eight-bolt flange exercise|Wheels on, with re-torque)\) is hard/);
    for (const heading of ['WHERE TIME GOES', 'WHO IS STUCK WHERE', 'IS IT GETTING BETTER']) expect(screenful).toContain(heading);
  });

  it('gives the figures as JSON and nothing beside them', async () => {
    const { code, out, err } = await runVerb(report, [workshop, '--json']);
    expect([code, err]).toEqual([0, []]);
    const figures = JSON.parse(out.join('\n')) as { facts: { runs: number }; overview: { findings: unknown[] }; steps: unknown[] };
    expect(figures.facts.runs).toBe(144);
    expect(figures.overview.findings.length).toBeGreaterThan(0);
    expect(figures.steps).toHaveLength(2);
  });

  it('writes the sheet of one person, by code or by name, and keeps the name out where codes are wanted', async () => {
    const byCode = await runVerb(report, [workshop, '--person', 'a07']);
    expect(byCode).toMatchObject({ code: 0, err: [] });
    expect(byCode.out[0]).toBe('FEEDBACK FOR GRETA LOWE, Anvil');
    expect(byCode.out).toEqual((await runVerb(report, [workshop, '--person', 'Greta Lowe'])).out);
    const coded = await runVerb(report, [workshop, '--person', 'A07', '--codes']);
    expect(coded.out.join('\n')).not.toContain('Greta');
    expect(await runVerb(report, [workshop, '--person', 'Z99'])).toMatchObject({ code: 1, out: [] });
  });

  it('looks into one step, of everybody or of one person', async () => {
    const all = await runVerb(report, [workshop, '--step', 'clean-hubs']);
    expect(all).toMatchObject({ code: 0, err: [] });
    expect(all.out[0]).toContain('(clean-hubs)');
    expect(all.out.join('\n')).toMatch(/The true median lies between .* and .* \(9\d/);
    const own = await runVerb(report, [workshop, '--step', 'clean-hubs', '--person', 'A07']);
    expect(own.code).toBe(0);
    expect(own.out.join('\n')).toContain('Too few times to say where the true median lies.');
    expect(await runVerb(report, [workshop, '--step', 'no-such-step'])).toMatchObject({ code: 1, out: [] });
  });

  it('tells on standard error what was wrong with the logs, and uses the rest', async () => {
    const [first, second, third] = logs;
    const lines = first!.text.trimEnd().split('\n');
    const damaged = [...lines.slice(0, 5), '{"event":{"ty', ...lines.slice(6)].join('\n');
    const newer = third!.text.replaceAll('"v":1}', '"v":9}');
    const path = folder('faulty', [
      { name: 'damaged.jsonl', text: damaged },
      { name: 'whole.jsonl', text: second!.text },
      { name: 'deeper/again.jsonl.gz', text: gzipSync(second!.text) },
      { name: 'newer.jsonl', text: newer },
      { name: 'notes.md', text: 'no log' },
    ]);
    const { code, out, err } = await runVerb(report, [path]);
    expect(code).toBe(0);
    expect(out[0]).toMatch(/^2 runs/);
    expect(out.join('\n')).toContain('too few for an interval around a median');
    const told = err.join('\n');
    expect(told).toContain('1 line: not readable, left out.');
    expect(told).toMatch(/\d+ lines: already read, left out\./);
    expect(told).toMatch(/\d+ lines: in another version of the format, left out\./);
    expect(told).toContain('1 event is missing from the middle or the beginning of runs.');
    expect(told).toContain('1 run is marked for it in the list of runs');
  });

  it('ends with 1 where there is no run, and with 2 where nothing can be read', async () => {
    expect(await runVerb(report, [folder('empty', [])])).toMatchObject({ code: 1, out: [] });
    expect(await runVerb(report, [path('nowhere')])).toMatchObject({ code: 2, out: [] });
    expect(await runVerb(report, [])).toMatchObject({ code: 2, out: [] });
    expect(await runVerb(report, [workshop, '--colour'])).toMatchObject({ code: 2, out: [] });
    expect(await runVerb(report, [workshop, '--procedure', 'none-such'])).toMatchObject({ code: 1, out: [] });
  });
});
