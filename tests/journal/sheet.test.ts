import { describe, expect, it } from 'vitest';
import { foldJob } from '../../src/job/fold.ts';
import { html, Markup } from '../../src/journal/sheet/markup.ts';
import { sheetHtml } from '../../src/journal/sheet/sheet.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { everyEvent, jobOf, sampleJob } from './sample-log.ts';
import { happening, opened, sampleHappenings, samplePlan } from './sample.ts';

const sheet = sheetHtml(sampleJob);

/** The text of the page, without its markup. */
function textOf(page: string): string {
  return page
    .replace(/<style>.*?<\/style>/su, '')
    .replaceAll(/<[^>]+>/gu, ' ')
    .replaceAll(/\s+/gu, ' ');
}

function rowWith(page: string, words: string): string {
  return textOf(page.split('<tr>').find((row) => row.includes(words)) ?? '');
}

describe('the job sheet', () => {
  it('says what the job was, on which build, who did it and when', () => {
    const text = textOf(sheet);
    for (const part of [
      'Eight-bolt flange; bench exercise',
      'Brindle B4 · build K: Build K',
      'Wren Ashdown, spring',
      '2031-04-14 08:12 (UTC+02:00)',
      'revision 3',
      sampleJob.job,
    ]) {
      expect(text).toContain(part);
    }
  });

  it('gives each group its torque, tool, wrench setting, order, count and time', () => {
    const row = rowWith(sheet, 'M10x1.5');
    for (const part of [
      '3 of 4',
      '47 N·m',
      '±2',
      '16 mm socket, 1/2 drive, 150 mm extension',
      'Long 40-200: set 47 N·m',
      'cross: seat, 100 %',
      '08:14',
    ]) {
      expect(row).toContain(part);
    }
    expect(row).toContain('four left out: part missing');
    expect(row).not.toContain('taken:');
  });

  it('gives the measures with their limits, the ones outside too', () => {
    expect(rowWith(sheet, 'Gap')).toContain('0.1 to 0.3 mm 0.35 mm outside at 08:14, then 0.2 mm at 08:15');
  });

  it('gives exceptions with their answers, checks, notes, what comes afterwards and the signature', () => {
    expect(foldJob(samplePlan, sampleJob.events).signed).not.toBeNull();
    const text = textOf(sheet);
    expect(text).toContain('SIGNED');
    expect(text).toContain('accepted: part missing');
    expect(text).toContain('Is the cover flush all round? passed 08:15');
    expect(text).toContain('Step 2, 08:14: question =SUM(A1)');
    expect(text).toContain('After 24 hours: Check the bolts again. Due 2031-04-15 08:15 (UTC+02:00).');
    expect(text).toContain('Signed by name in the tool: Wren Ashdown , 2031-04-14 08:15');
    expect(text).toContain(sampleJob.events.at(-1)!.hash);
  });

  it('speaks French around the words of the procedure, with the decimal comma', () => {
    const page = sheetHtml(sampleJob, 'fr');
    const text = textOf(page);
    for (const part of ['SIGNÉ', 'Réserves', 'accepté : pièce manquante', 'de 0,1 à 0,3 mm', 'Signé par nom dans l’outil'])
      expect(text).toContain(part);
    expect(page).toContain('<html lang="fr">');
  });

  it('takes pauses out of the time at work', () => {
    expect(textOf(sheet)).toContain('3 min, and 1 min paused');
  });

  it('calls what is not signed not finished, and what nobody answered for by that name', () => {
    const text = textOf(sheetHtml(jobOf('job', sampleHappenings.slice(0, -4))));
    expect(text).toContain('NOT FINISHED');
    expect(text).toContain('not answered for');
    expect(text).not.toContain('Signed by name');
    expect(textOf(sheetHtml(jobOf('job', [opened, happening({ type: 'left-open' }, 5)])))).toContain('LEFT OPEN');
  });

  it('shows when another order was taken than the planned one', () => {
    const swapped = sampleHappenings.with(14, sampleHappenings[15]!).with(15, sampleHappenings[14]!);
    expect(rowWith(sheetHtml(jobOf('job', swapped)), 'M10x1.5')).toContain('taken: three, one, two');
  });

  it('forgets what was taken back', () => {
    const undone = [...sampleHappenings.slice(0, 24), happening({ type: 'undone', seq: 23 }, 175, 'gap')];
    expect(rowWith(sheetHtml(jobOf('job', undone)), 'Gap')).toContain('not measured');
  });

  it("shows a converted torque as such, beside the source's own", () => {
    expect(rowWith(sheetHtml({ ...sampleJob, plan: { ...samplePlan, spokenUnit: 'lbf·ft' } }), 'M10x1.5')).toContain(
      '47 N·m ±2 (converted: 35 lbf·ft)',
    );
  });

  it("points to the maker's manual where the procedure gives no torque", () => {
    const bolts = samplePlan.steps[1]!;
    const withoutTorque = { ...bolts, groups: [{ ...bolts.groups[0]!, torque: null, band: null }] };
    const plan: Plan = { ...samplePlan, steps: samplePlan.steps.with(1, withoutTorque) };
    expect(rowWith(sheetHtml({ ...sampleJob, plan }), 'M10x1.5')).toContain('none given: see the maker’s manual');
  });

  it('tells the day where a job goes over midnight', () => {
    const late = happening({ type: 'hold-answered', step: 'gap', hold: 'flush', passed: true }, 20 * 3600, 'gap');
    expect(textOf(sheetHtml(jobOf('job', [...sampleHappenings.slice(0, 25), late])))).toContain('passed 2031-04-15 04:12');
  });

  it('says on its face that its record is damaged', () => {
    expect(textOf(sheetHtml({ ...sampleJob, faults: [{ line: 3 }] }))).toContain('damaged in 1 place');
    expect(textOf(sheet)).not.toContain('damaged');
  });

  it('lets no text become markup, and loads and runs nothing', () => {
    const evil = '"><script>alert(1)</script><img src=x onerror=alert(1)>';
    const plan: Plan = JSON.parse(JSON.stringify(samplePlan), (key: string, value: unknown) =>
      key === 'id' ||
      typeof value !== 'string' ||
      /^(?:N·m|hex|mm|cross|seat|torque|time|distance|km|stay|support|CAUTION|extension|socket)$/u.test(value)
        ? value
        : evil,
    ) as Plan;
    const happenings = sampleHappenings.map((entry) =>
      entry.event.type === 'opened'
        ? { ...entry, event: { ...entry.event, person: evil, group: evil } }
        : entry.event.type === 'noted'
          ? { ...entry, event: { ...entry.event, text: evil } }
          : entry,
    );
    for (const page of [sheetHtml(jobOf(evil, happenings, plan)), sheetHtml(everyEvent), sheet]) {
      expect(page).not.toMatch(/<(?:script|img|link|iframe|a|form)\b|url\(|@import/iu);
      expect(page).toContain("default-src 'none'");
    }
    expect(sheetHtml(jobOf(evil, happenings, plan))).toContain('&lt;script&gt;');
  });
});

describe('a template', () => {
  it('escapes text and keeps markup', () => {
    expect(html`<p title="${'"a" & <b>'}">${[html`<b>${1}</b>`, null, '<i>']}</p>`).toEqual(
      new Markup('<p title="&quot;a&quot; &amp; &lt;b&gt;"><b>1</b>&lt;i&gt;</p>'),
    );
  });
});
