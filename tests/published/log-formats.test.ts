import strangersProblems from '@learninglocker/xapi-validation';
import { parse as parseCsv } from 'csv-parse/sync';
import { parse as parseDuration, toSeconds } from 'iso8601-duration';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { sha256Hex } from '../../src/journal/chain.ts';
import { calendarFile } from '../../src/journal/formats/calendar.ts';
import { csvFile } from '../../src/journal/formats/csv.ts';
import { localTime, utcTime } from '../../src/journal/formats/times.ts';
import { statements, xapiFile } from '../../src/journal/formats/xapi.ts';
import { xesFile } from '../../src/journal/formats/xes.ts';
import { nameUuid } from '../../src/journal/uuid.ts';
import { everyEvent, sampleJob } from '../journal/sample-log.ts';
import { samplePlan } from '../journal/sample.ts';
import { statementProblems } from '../journal/xapi-rules.ts';
import { xesGrammar } from '../journal/xes-grammar.ts';

const jobs = [sampleJob, everyEvent];
const events = jobs.flatMap((job) => job.events);

/** Characters outside the formats' plain ground: quotes, markup, separators, line ends, a formula, a control character, half a pair. */
const nasty = '=1+1,"two";<three>&four\r\nfive\\six\ttab \u0007 bell \uD800 half Ä 🔧';

describe('hashes and ids', () => {
  it('are those of the standards', () => {
    // FIPS 180-4, the one-block example (memory of it, confirmed by node:crypto in tests/journal/chain.test.ts).
    expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    // RFC 9562, appendix A.4: version 5 of "www.example.com" in the DNS namespace (memory).
    expect(nameUuid('6ba7b810-9dad-11d1-80b4-00c04fd430c8', 'www.example.com')).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
  });
});

describe('CSV (RFC 4180)', () => {
  const text = [...csvFile(jobs)].join('');

  it('ends every record in CRLF, and all have as many fields', () => {
    expect(text.endsWith('\r\n')).toBe(true);
    const rows = parseCsv(text, { record_delimiter: '\r\n', relax_column_count: false });
    expect(rows).toHaveLength(events.length + 1);
  });

  it('reads back alike in two readers', () => {
    const one = parseCsv(text, { columns: true, record_delimiter: '\r\n' });
    const other = Papa.parse<Record<string, string>>(text, { header: true, newline: '\r\n', skipEmptyLines: 'greedy' });
    expect(other.errors).toEqual([]);
    expect(other.data).toEqual(one);
  });

  it('doubles quotes and keeps line ends inside a field', () => {
    const rows = parseCsv<Record<string, string>>(text, { columns: true, record_delimiter: '\r\n' });
    expect(rows.find(({ event }) => event === 'misheard')?.['text']).toBe('the "radio", loud\r\nand <clear>');
  });

  it('lets no text become a formula', () => {
    const rows = parseCsv<Record<string, string>>(text, { columns: true, record_delimiter: '\r\n' });
    expect(rows.find(({ event }) => event === 'noted')?.['text']).toBe('\'=SUM(A1) was chalked, on the "cover"; why?\nÄ 🔧');
    expect(rows.flatMap((row) => Object.values(row)).filter((value) => /^[=+@\t\r]/u.test(value))).toEqual([]);
  });
});

describe('XES (IEEE 1849)', () => {
  const text = [...xesFile(jobs)].join('');

  async function problems(xml: string): Promise<readonly string[]> {
    const result = await validateXML({ xml: { fileName: 'log.xes', contents: xml }, schema: xesGrammar, extension: 'relaxng' });
    return result.errors.map(({ message }) => message);
  }

  it('keeps to the order and the types of the schema', async () => {
    expect(await problems(text)).toEqual([]);
  });

  it('would be caught with elements out of order, a version that is no number or a name with a space', async () => {
    expect(await problems(text.replace('<log xes.version="2.0"', '<log xes.version="two"'))).not.toEqual([]);
    expect(await problems(text.replace('name="ActivityAndTransition"', 'name="Activity And Transition"'))).not.toEqual([]);
    const classifier = /  <classifier name="Activity".*\n/u.exec(text)?.[0] ?? '';
    expect(await problems(text.replace(classifier, '').replace('  <extension', `${classifier}  <extension`))).not.toEqual([]);
  });

  it('carries any text', async () => {
    const noted = everyEvent.events.find(({ event }) => event.type === 'noted')!;
    const strange = {
      ...everyEvent,
      events: [{ ...noted, event: { type: 'noted', text: nasty, question: false, recording: null, media: null } as const }],
    };
    const xml = [...xesFile([strange])].join('');
    expect(await problems(xml)).toEqual([]);
    expect(xml).toContain('&lt;three&gt;&amp;four&#13;&#10;five');
  });

  it('gives every event what the globals promise, and pairs the beginnings and ends of steps', () => {
    const traces = text.split('<trace>').slice(1);
    expect(traces).toHaveLength(jobs.length);
    for (const event of text.split('<event>').slice(1)) {
      const keys = [...(event.split('</event>')[0] ?? '').matchAll(/key="([^"]+)"/gu)].map((match) => match[1]);
      expect(keys).toEqual(
        expect.arrayContaining(['concept:name', 'lifecycle:transition', 'org:resource', 'time:timestamp', 'undertray:event']),
      );
      expect(new Set(keys).size).toBe(keys.length);
    }
    const bolts = traces[0]!.split('<event>').filter((event) => event.includes('"concept:name" value="2 bolts"'));
    expect(bolts.map((event) => /transition" value="(\w+)"/u.exec(event)?.[1])).toEqual(['start', 'complete']);
  });
});

describe('xAPI (1.0.3, IEEE 9274.1.1)', () => {
  const made = jobs.flatMap((job) => [...statements(job)]);

  it('makes one valid statement of each event', () => {
    expect(made).toHaveLength(events.length);
    expect(made.flatMap(statementProblems)).toEqual([]);
    expect(new Set(made.map(({ id }) => id)).size).toBe(made.length);
  });

  it('passes the validator of an independent record store', () => {
    expect(made.flatMap((statement) => strangersProblems(statement))).toEqual([]);
    const [first] = made;
    for (const wrong of [
      { ...first, id: '1234' },
      { ...first, verb: { id: 'opened' } },
      { ...first, result: { duration: '5 minutes' } },
    ])
      expect(strangersProblems(wrong)).not.toEqual([]);
  });

  it('would be caught with a null, a short id, a wrong zone or an extension without an IRI', () => {
    const [first] = made;
    expect(statementProblems({ ...first, result: { response: null } })).not.toEqual([]);
    expect(statementProblems({ ...first, id: '1234' })).not.toEqual([]);
    expect(statementProblems({ ...first, timestamp: '2031-04-14T08:12:00.000-00:00' })).not.toEqual([]);
    expect(statementProblems({ ...first, result: { extensions: { plain: 1 } } })).not.toEqual([]);
    expect(statementProblems({ ...first, result: { duration: 'PT1.2345S' } })).not.toEqual([]);
  });

  it('makes the same ids each time, and keeps what was misheard on the device', () => {
    expect([...statements(sampleJob)].map(({ id }) => id)).toEqual(made.slice(0, sampleJob.events.length).map(({ id }) => id));
    expect(JSON.stringify(made)).not.toContain('radio');
  });

  it('carries any text and any ids', () => {
    const plan = { ...samplePlan, procedure: { ...samplePlan.procedure, id: nasty, title: nasty, language: 'no language!' } };
    expect([...statements({ ...sampleJob, job: nasty, plan })].flatMap(statementProblems)).toEqual([]);
  });

  it('gives durations that a reader of ISO 8601 understands', () => {
    const signed = made.find(({ verb }) => verb.id.endsWith('/signed'));
    expect(toSeconds(parseDuration(signed?.result?.duration ?? ''))).toBe(220);
  });

  it('is one JSON array as a file, also when there is nothing in it', () => {
    expect(JSON.parse([...xapiFile(jobs)].join(''))).toEqual(JSON.parse(JSON.stringify(made)));
    expect(JSON.parse([...xapiFile([])].join(''))).toEqual([]);
  });
});

describe('iCalendar (RFC 5545)', () => {
  const long = `Check, again; ${'Ä🔧'.repeat(40)}\nand the "other" side\\too.`;
  const [inADay, byDistance] = samplePlan.followUps;
  const job = { ...sampleJob, plan: { ...samplePlan, followUps: [inADay!, { ...byDistance!, say: long }] } };
  const text = calendarFile([job]) ?? '';
  const lines = text.split('\r\n');

  it('has lines of at most 75 octets that end in CRLF, and cuts no character', () => {
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/u);
    for (const line of lines) expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75);
    expect(text).not.toContain('\uFFFD');
  });

  it('gives the text back when lines are unfolded and escapes undone', () => {
    const summary = text
      .replaceAll('\r\n ', '')
      .split('\r\n')
      .filter((line) => line.startsWith('SUMMARY:'))
      .at(-1)!;
    const value = summary
      .slice('SUMMARY:'.length)
      .replaceAll(/\\([\\;,nN])/gu, (_, character: string) => (/n/iu.test(character) ? '\n' : character));
    expect(value).toBe(long);
  });

  it('has what a calendar and its components must have, and nothing unbalanced', () => {
    expect(lines.slice(0, 3)).toEqual(['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Undertray//Undertray//EN']);
    const open: string[] = [];
    for (const line of lines) {
      if (line.startsWith('BEGIN:')) open.push(line.slice(6));
      if (line.startsWith('END:')) expect(open.pop()).toBe(line.slice(4));
    }
    expect(open).toEqual([]);
    for (const kind of ['VEVENT', 'VTODO']) {
      const component = text.slice(text.indexOf(`BEGIN:${kind}`), text.indexOf(`END:${kind}`));
      expect(component.match(/^UID:/gmu)).toHaveLength(1);
      expect(component.match(/^DTSTAMP:\d{8}T\d{6}Z\r$/gmu)).toHaveLength(1);
    }
  });

  it('puts the appointment a day of elapsed time after the signature', () => {
    expect(text).toContain('DTSTART:20310415T061540Z');
  });

  it('is no calendar when there is nothing to come back for', () => {
    expect(calendarFile([{ ...sampleJob, events: sampleJob.events.slice(0, -1) }])).toBeNull();
  });
});

describe('times (ISO 8601)', () => {
  it('name the same instant in both writings, whatever the zone', () => {
    const wall = Date.UTC(2031, 2, 30, 0, 59, 59, 999);
    for (const offset of [-720, -210, -30, 0, 60, 120, 345, 840]) {
      const moment = { wall, offset, mono: 0 };
      expect(Date.parse(localTime(moment))).toBe(wall);
      expect(Date.parse(utcTime(moment))).toBe(wall);
    }
  });

  it('pass over midnight and over the hour that daylight saving skips or repeats', () => {
    expect(localTime({ wall: Date.UTC(2031, 11, 31, 23, 30), offset: 60, mono: 0 })).toBe('2032-01-01T00:30:00.000+01:00');
    // The night to 30 March 2031 in Central Europe: 01:59:59 at +01:00 is followed by 03:00:00 at +02:00.
    expect(localTime({ wall: Date.UTC(2031, 2, 30, 0, 59, 59), offset: 60, mono: 0 })).toBe('2031-03-30T01:59:59.000+01:00');
    expect(localTime({ wall: Date.UTC(2031, 2, 30, 1, 0, 0), offset: 120, mono: 0 })).toBe('2031-03-30T03:00:00.000+02:00');
    // And back on 26 October: half past two happens twice, and the zone tells which.
    const twice = [
      localTime({ wall: Date.UTC(2031, 9, 26, 0, 30), offset: 120, mono: 0 }),
      localTime({ wall: Date.UTC(2031, 9, 26, 1, 30), offset: 60, mono: 0 }),
    ];
    expect(twice).toEqual(['2031-10-26T02:30:00.000+02:00', '2031-10-26T02:30:00.000+01:00']);
  });
});
