import { describe, expect, it } from 'vitest';
import { foldJob } from '../../src/job/fold.ts';
import type { Folded } from '../../src/job/state.ts';
import { samplePlan, sampleHappenings } from '../journal/sample.ts';
import { rig } from './rig.ts';

const signed = sampleHappenings.map(({ moment, event }, seq): Folded => ({ seq, session: 'earlier', moment, event }));

describe('what is to be done after the job', () => {
  it('is told again when the signed job is opened, and logged by voice, one after the other', async () => {
    const job = await rig(samplePlan, signed);
    expect(job.state()).toBe('closed');
    expect(job.heard().filter(({ kind }) => kind === 'follow-up')).toHaveLength(2);
    await job.say('follow-up-done', 'no');
    expect(job.heard().at(-1)).toMatchObject({ kind: 'confirm-follow-up', followUp: { id: 'after-distance' } });
    await job.say('yes');
    expect(job.heard().at(-1)).toEqual({ kind: 'follow-up-logged', left: 1 });
    expect(job.events.at(-1)?.event).toMatchObject({ type: 'follow-up-done', followUp: 'after-distance' });
    await job.say('repeat');
    expect(job.heard()).toMatchObject([{ kind: 'follow-up', followUp: { id: 'again' } }, { kind: 'closed' }]);
    await job.say('follow-up-done', 'yes');
    expect(job.heard().at(-1)).toEqual({ kind: 'follow-up-logged', left: 0 });
    await job.say('follow-up-done');
    expect(job.heard().at(-1)).toMatchObject({ kind: 'not-now' });
    expect(Object.keys(foldJob(samplePlan, job.events).followedUp).toSorted()).toEqual(['after-distance', 'again']);
  });

  it.each([
    ['who opened the job', 'Wren Ashdown', 'Someone Else', 'Wren Ashdown'],
    ['who signed it, where nobody said a name before', null, 'Someone Else', 'Someone Else'],
  ])('is logged in the name of %s', async (_, person, signer, expected) => {
    const named = signed.map((one): Folded => {
      const { event } = one;
      if (event.type === 'opened') return { ...one, event: { ...event, person } };
      return event.type === 'signed' ? { ...one, event: { ...event, name: signer } } : one;
    });
    const job = await rig(samplePlan, named);
    await job.say('follow-up-done', 'yes');
    expect(job.events.at(-1)?.event).toMatchObject({ type: 'follow-up-done', name: expected });
  });

  it('is let be with a no to each, and nothing is written down', async () => {
    const job = await rig(samplePlan, signed);
    await job.say('follow-up-done');
    const asked = job.events.length;
    await job.say('no', 'no');
    expect(job.heard().at(-1)).toEqual({ kind: 'dropped' });
    expect(job.state()).toBe('closed');
    expect(job.events.slice(asked).map(({ event }) => event.type)).not.toContain('follow-up-done');
  });

  it('counts once, only after the signature, and only where the plan knows it', () => {
    const done = (followUp: string, seq: number): Folded => ({
      seq,
      session: 's',
      moment: signed[0]!.moment,
      event: { type: 'follow-up-done', followUp, name: 'Ana Quince', text: null },
    });
    expect(foldJob(samplePlan, [done('again', 0), ...signed.slice(0, 5)]).followedUp).toEqual({});
    const after = foldJob(samplePlan, [
      ...signed,
      done('again', 31),
      { ...done('again', 32), moment: signed[3]!.moment },
      done('unknown', 33),
    ]);
    expect(after.followedUp).toEqual({ again: { name: 'Ana Quince', text: null, moment: signed[0]!.moment } });
  });
});

describe('a job that was handed over', () => {
  it('stands still, says so, and is carried on by whoever says so first', async () => {
    const away: Folded = { seq: 12, session: 'earlier', moment: signed[11]!.moment, event: { type: 'handed-over', way: 'codes' } };
    const job = await rig(samplePlan, [...signed.slice(0, 12), away]);
    expect(job.state()).toBe('paused');
    expect(job.heard().at(-1)).toEqual({ kind: 'handed-over' });
    await job.say('carry-on');
    expect(job.state()).toBe('fastening');
  });
});

describe('a recording', () => {
  it('is kept with the step at hand whenever it comes, also while something is asked, and not after the signature', async () => {
    const job = await rig(samplePlan, signed.slice(0, 12));
    await job.say({ type: 'skip', scope: 'this', reason: 'no-part' });
    expect(job.state()).toBe('confirming');
    await job.note({ text: '', recording: 'a'.repeat(64), media: 'audio', question: false });
    expect(job.heard().at(-1)).toEqual({ kind: 'noted', text: '', media: 'audio' });
    expect(job.state()).toBe('confirming');
    expect(job.dialogue().job.work.notes.at(-1)).toMatchObject({ step: 'bolts', media: 'audio' });
    const closed = await rig(samplePlan, signed);
    await closed.note({ text: 'too late', recording: null, media: null, question: false });
    expect(closed.events.at(-1)?.event).toEqual({ type: 'refused', intent: 'note' });
  });
});
