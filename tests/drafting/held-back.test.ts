import { expect, it } from 'vitest';
import { questionsIn } from '../../src/app/author/questions.ts';
import { draftFile } from '../../src/drafting/draft-file.ts';
import { draftFrom, draftOf } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { isJudged, trustedFrom } from '../../src/drafting/trust.ts';
import { readYaml } from '../../src/procedure/yaml-tree.ts';

const talk =
  'The stay on the left, that is a 15 and I give it 40. The cover, six of them, tens. Eight newton metres. The hose, 22. Everybody nips that.';
const transcript = readTranscript(talk);
const draft = draftFrom(transcript, { name: 'practice' });
const whole = draftOf(hearTalk(transcript), { name: 'practice', holdBack: false });

it('writes no count, size or torque that is likelier wrong than it may be', () => {
  const sure = draft.groups
    .flatMap(({ evidence }) => evidence)
    .flatMap(({ field, confidence }) => (isJudged(field) ? [{ least: trustedFrom[field], confidence }] : []));
  expect(sure.length).toBeGreaterThan(3);
  expect(sure.every(({ least, confidence }) => confidence >= least)).toBe(true);
});

it('loses nothing: what is not written is asked about, with the value and the sentence that says it', () => {
  const held = draft.groups.flatMap(({ group, heldBack }) => heldBack.map((one) => ({ group, ...one })));
  expect(held.map(({ field, text }) => [field, text])).toContainEqual(['count', '1']);
  for (const { group, field, text, said } of held) {
    expect(talk).toContain(said);
    expect(whole.groups.find((one) => one.group === group)?.[field]).not.toBeNull();
    expect(draft.groups.find((one) => one.group === group)?.[field]).toBeNull();
    const question = draft.questions.find((one) => one.about === group && one.value === (field === 'size' ? 'drive' : field));
    expect(question).toMatchObject({ heard: text, said });
  }
});

it('offers the value in the file, where the author page reads it', () => {
  const root = readYaml(draftFile(draft), 'practice.yaml').root!;
  const offered = questionsIn(root).filter((one) => one.offered !== null);
  expect(offered.map((one) => [one.field?.at(-1), one.offered, one.heard?.said])).toContainEqual(['count', '1', 'The hose, 22.']);
});

it('guesses no hex where another drive is spoken of', () => {
  const [group] = draftFrom(readTranscript('The pan has four 10 millimetre bolts. It needs an Allen key, I think.'), {
    name: 'pan',
  }).groups;
  expect(group).toMatchObject({ size: '10' });
  expect(group?.drive).not.toBe('hex');
});
