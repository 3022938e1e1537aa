import { describe, expect, it } from 'vitest';
import { canBeRun, checkText } from '../../../src/app/author/check.ts';
import { clockText, evidenceIn, lookItUp, questionsIn, seconds } from '../../../src/app/author/questions.ts';
import { toWebVtt } from '../../../src/app/author/recording/captions.ts';
import { packShare, readShare, type Shared } from '../../../src/app/author/share.ts';
import { freeName, skeleton, slug } from '../../../src/app/author/skeleton.ts';
import { draftFile } from '../../../src/drafting/draft-file.ts';
import { draftFrom } from '../../../src/drafting/draft.ts';
import { readTranscript } from '../../../src/drafting/transcripts.ts';
import { languages } from '../../../src/phrasing/language.ts';
import { editText } from '../../../src/procedure/edits.ts';
import { nodeAt } from '../../../src/procedure/plain-tree.ts';
import { readYaml } from '../../../src/procedure/yaml-tree.ts';

const vtt = toWebVtt([
  { from: 1, to: 5, text: 'The bracket has two 13 millimetre bolts.' },
  { from: 62.5, to: 66, text: 'The pan has four 10 millimetre bolts, eight newton metres.' },
]);
const draft = draftFile(draftFrom(readTranscript(vtt), { name: 'practice' }));
const root = readYaml(draft, 'practice.yaml').root!;

describe('a new procedure', () => {
  it.each(languages)('reads without a fault in %s, whatever its title', (language) => {
    for (const title of ['Refit the carrier', 'Bolts: #3 {left}', "d'essai", '8']) {
      const checked = checkText(skeleton({ title, vehicle: 'Brindle B4', author: 'A tester' }, language), 'new.yaml');
      expect(checked.marks).toEqual([]);
      expect(canBeRun(checked)).toBe(true);
      expect(checked.file?.title).toBe(title);
    }
  });

  it.each(languages)('reads without a fault in %s too once its notes are put to use', (language) => {
    const text = skeleton({ title: 'Refit', vehicle: 'Brindle B4', author: 'A tester' }, language).replace(
      /^( *)#(before|fasteners|  )/gm,
      '$1$2',
    );
    expect(checkText(text, 'new.yaml').marks.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(text).toContain('\n        fasteners:\n');
  });

  it('gets a name that nothing else has', () => {
    expect(freeName('Refit the carrier!', [])).toBe('refit-the-carrier.yaml');
    expect(freeName('a.yaml', ['a.yaml', 'a-2.yaml'])).toBe('a-3.yaml');
    expect(freeName('***', [])).toBe('procedure.yaml');
    expect(slug('Étrier, dépose')).toBe('etrier-depose');
  });
});

describe('a draft', () => {
  it('lists its questions with the sentence and the time, and the value that each is about', () => {
    const questions = questionsIn(root);
    const torque = questions.find(({ ask }) => ask.endsWith('which torque?'));
    expect(torque).toMatchObject({ heard: { said: 'The bracket has two 13 millimetre bolts.', at: 1 }, answer: null });
    expect(nodeAt(root, torque!.field!.slice(0, -1))?.kind).toBe('map');
    expect(torque?.field?.at(-1)).toBe('torque');
    expect(questions.slice(0, 2).map(({ field }) => field)).toEqual([['vehicle'], ['author']]);
  });

  it('gives every value its evidence', () => {
    const eight = evidenceIn(root).find(({ value, said }) => value === 'torque' && said.includes('eight newton metres'));
    expect(eight).toMatchObject({ at: 62 });
    expect(eight?.confidence).toBeGreaterThan(0);
  });

  it('counts unanswered questions apart from faults, and can be run once each has its answer', () => {
    const questions = questionsIn(root);
    const before = checkText(draft, 'practice.yaml');
    expect(before.unanswered).toBe(questions.length);
    expect(canBeRun(before)).toBe(false);
    const answered = editText(draft, [
      { kind: 'set', path: ['vehicle'], value: 'Brindle B4' },
      { kind: 'set', path: ['author'], value: 'A tester' },
      ...questions.map(({ path }) => ({ kind: 'set', path: [...path, 'answer'], value: lookItUp }) as const),
    ]);
    const after = checkText(answered.ok ? answered.text : '', 'practice.yaml');
    expect(after.unanswered).toBe(0);
    expect(canBeRun(after)).toBe(true);
  });
});

it('reads and writes times of a recording', () => {
  expect([seconds('2:03'), seconds('1:02:03'), seconds('soon'), seconds(null)]).toEqual([123, 3723, null, null]);
  expect([clockText(63.9), clockText(3723)]).toEqual(['1:03', '1:02:03']);
});

describe('a transcript made in the app', () => {
  it('is WebVTT that the draft reads with its times', () => {
    const transcript = readTranscript(vtt);
    expect(transcript.kind).toBe('vtt');
    expect(transcript.words.find(({ text }) => text === 'pan')?.at).toBeGreaterThanOrEqual(62_500);
  });

  it('keeps what would otherwise be markup or end a cue', () => {
    const odd = toWebVtt([{ from: 0, to: 0, text: ' a <b> & c\n\n--> d ' }]);
    expect(odd).toBe('WEBVTT\n\n00:00:00.000 --> 00:00:00.100\na &lt;b&gt; &amp; c --&gt; d\n');
    expect(
      readTranscript(odd)
        .words.map(({ text }) => text)
        .join(' '),
    ).toContain('& c');
  });
});

describe('a shared file', () => {
  const shared: Shared = {
    name: 'refit.yaml',
    text: 'undertray: 1\n',
    versions: [{ number: 1, at: 5, note: 'first', text: 'undertray: 1\n' }],
    recording: { title: 'Talk', at: 4, seconds: 66, transcript: vtt, sound: { type: 'audio/webm;codecs=opus', base64: 'AAAA' } },
  };

  it('comes back as it went', () => {
    expect(readShare(packShare(shared))).toEqual({ ok: true, shared });
  });

  it('is refused with the place where it is anything else', () => {
    expect(readShare('{')).toMatchObject({ ok: false, expected: 'JSON' });
    expect(readShare(packShare({ ...shared, versions: [{ number: 0, at: 0, note: '', text: '' }] }))).toMatchObject({
      ok: false,
      where: 'versions.0.number',
    });
    expect(readShare(JSON.stringify({ ...JSON.parse(packShare(shared)), more: 1 }))).toMatchObject({ ok: false });
    const page = { ...shared, recording: { ...shared.recording!, sound: { type: 'text/html', base64: 'AAAA' } } };
    expect(readShare(packShare(page))).toMatchObject({ ok: false, where: 'recording.sound.type' });
  });
});
