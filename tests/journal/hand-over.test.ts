import { inflateRawSync, deflateRawSync } from 'node:zlib';
import * as fc from 'fast-check';
import { encode } from 'uqr';
import { describe, expect, it } from 'vitest';
import { fromBase45, toBase45 } from '../../src/journal/hand-over/base45.ts';
import { codesOf, codeSvg, collectCodes, mostCodes } from '../../src/journal/hand-over/codes.ts';
import { pack, unpack } from '../../src/journal/hand-over/packed.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { storedLines } from './journal-contract.ts';
import { everyEvent, jobOf, sampleJob } from './sample-log.ts';
import { happening, sampleHappenings, samplePlan } from './sample.ts';

async function textsOf(stored: Parameters<typeof codesOf>[0]): Promise<readonly string[]> {
  const codes = await codesOf(stored);
  if (!codes.ok) throw new Error(codes.code);
  return codes.texts;
}

/** Long enough for several codes: notes that do not compress well. */
const longJob = jobOf('long', [
  ...sampleHappenings.slice(0, 9),
  ...Array.from({ length: 120 }, (_, index) =>
    happening(
      { type: 'noted', text: `${Math.sin(index)} ${Math.cos(index)}`, question: false, recording: null, media: null },
      60 + index,
      'bolts',
    ),
  ),
]);

describe('Base45', () => {
  it('is that of RFC 9285', () => {
    // RFC 9285, 4.3 and 4.4 (memory of them).
    const bytes = (text: string) => new TextEncoder().encode(text);
    expect(toBase45(bytes('AB'))).toBe('BB8');
    expect(toBase45(bytes('Hello!!'))).toBe('%69 VD92EX0');
    expect(toBase45(bytes('base-45'))).toBe('UJCLQE7W581');
    expect(fromBase45('QED8WEX0')).toEqual(bytes('ietf!'));
    // RFC 9285, section 6: not a valid encoding.
    expect(fromBase45('GGX')).toBeNull();
  });

  it('gives back any bytes and refuses any other text', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(fromBase45(toBase45(bytes))).toEqual(bytes);
      }),
    );
    fc.assert(fc.property(fc.string(), (text) => fromBase45(text) === null || toBase45(fromBase45(text) ?? new Uint8Array()) === text));
  });
});

describe('a packed job', () => {
  it.each([
    ['a whole job', sampleJob],
    ['one event of each kind', everyEvent],
    ['a job just begun', jobOf('new', sampleHappenings.slice(0, 1))],
  ])('comes back line by line: %s', async (_, stored) => {
    expect(await unpack(await pack(stored))).toEqual({ ok: true, job: stored.job, plan: stored.plan, lines: stored.lines });
  });

  it('is refused when anything in it was changed', async () => {
    const text = inflateRawSync(await pack(sampleJob)).toString('utf8');
    const changed = (from: string, to: string) => {
      expect(text).toContain(from);
      return unpack(deflateRawSync(text.replace(from, to)));
    };
    expect(await changed('"position":2', '"position":3')).toEqual({ ok: false, code: 'damaged' });
    expect(await changed('"type":"paused"', '"type":"passed"')).toEqual({ ok: false, code: 'damaged' });
    expect(await changed('"v":2', '"v":2,"more":1')).toEqual({ ok: false, code: 'damaged' });
    expect(await changed('"v":2', '"v":3')).toEqual({ ok: false, code: 'newer-version' });
  });

  it('is refused, never thrown at, whatever it is', async () => {
    await fc.assert(fc.asyncProperty(fc.uint8Array(), async (bytes) => !(await unpack(bytes)).ok));
    await fc.assert(fc.asyncProperty(fc.json(), async (json) => !(await unpack(deflateRawSync(json))).ok));
  });

  it('may not unfold to more than there is room for', async () => {
    expect(await unpack(deflateRawSync(Buffer.alloc(40_000_000, ' ')))).toEqual({ ok: false, code: 'damaged' });
  });
});

describe('a hand-over by codes', () => {
  it('brings a job to another device, which goes on with it where it stood', async () => {
    const here = memoryJournal({ session: 'here' });
    await here.begin('job', samplePlan, sampleHappenings.slice(0, 12));
    const found = await here.read('job');
    const collector = collectCodes();
    for (const text of found.ok ? await textsOf(found.stored) : []) collector.take(text);
    const arrived = await collector.finish();
    const there = memoryJournal({ session: 'there' });
    expect(arrived.ok && (await there.adopt(arrived.job, arrived.plan, arrived.lines))).toEqual({ ok: true, outcome: 'new', added: 12 });
    await there.open('job');
    await there.append('job', sampleHappenings.slice(12));
    expect(await storedLines(there, 'job')).toHaveLength(sampleHappenings.length);
    // And back again: the first device recognises its own part.
    const back = await there.read('job');
    expect(back.ok && (await here.adopt('job', back.stored.plan, back.stored.lines))).toMatchObject({
      outcome: 'extended',
      added: sampleHappenings.length - 12,
    });
  });

  it('takes codes in any order and as often as the camera sees them, and says which are missing', async () => {
    const texts = await textsOf(longJob);
    expect(texts.length).toBeGreaterThan(3);
    const collector = collectCodes();
    const [first, ...rest] = texts.toReversed();
    expect(collector.take(first!)).toMatchObject({ ok: true, isNew: true, of: texts.length });
    expect(collector.take(first!)).toMatchObject({ ok: true, isNew: false });
    expect(await collector.finish()).toEqual({ ok: false, code: 'parts-missing' });
    const answers = rest.map((text) => collector.take(text));
    expect(answers.map((answer) => answer.ok && answer.missing.length)).toEqual(rest.map((_, index) => rest.length - index - 1));
    expect(await collector.finish()).toMatchObject({ ok: true, lines: longJob.lines });
  });

  it('knows codes that are not its own', async () => {
    const collector = collectCodes();
    const [first] = await textsOf(longJob);
    const [other] = await textsOf(sampleJob);
    for (const text of [
      '',
      'https://records.example',
      'UT1:',
      first!.replace(':1/', ':9/').replace(/\/\d+/u, '/8'),
      `UT1:0123456789ABCDEF:1/${mostCodes + 1}:00`,
    ]) {
      expect(collector.take(text)).toEqual({ ok: false, code: 'not-a-part' });
    }
    collector.take(first!);
    expect(collector.take(other!)).toEqual({ ok: false, code: 'other-hand-over' });
  });

  it('notices a wrong part at the end, and begins again', async () => {
    const texts = await textsOf(longJob);
    const collector = collectCodes();
    const last = texts.at(-1)!;
    for (const text of texts.with(-1, `${last.slice(0, -3)}${last.endsWith('000') ? '100' : '000'}`)) collector.take(text);
    expect(await collector.finish()).toEqual({ ok: false, code: 'damaged' });
    for (const text of texts) collector.take(text);
    expect(await collector.finish()).toMatchObject({ ok: true });
  });

  it('leaves a damaged record to a file', async () => {
    expect(await codesOf({ ...sampleJob, faults: [{ line: 1, code: 'changed', seq: 0 }] })).toEqual({ ok: false, code: 'record-corrupt' });
  });

  it('draws each code with a quiet zone, small enough to be read off a screen', async () => {
    for (const text of await textsOf(longJob)) {
      const { version } = encode(text, { ecc: 'L' });
      expect(version).toBeLessThanOrEqual(19);
      const svg = codeSvg(text);
      expect(svg).toMatch(/^<svg/u);
      expect(svg).not.toMatch(/<script|href/u);
    }
  });
});
