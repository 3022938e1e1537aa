import { draftFile } from '../../drafting/draft-file.ts';
import { draftFrom } from '../../drafting/draft.ts';
import { readerFrom } from '../../drafting/reader/net.ts';
import talks from '../../drafting/reader/model/talks.net?url';
import { readTranscript } from '../../drafting/transcripts.ts';
import { Matrices } from '../../nets/matrices.ts';
import { fetchBytes } from '../../speech/fetching.ts';
import type { DraftAnswer, DraftTask } from './drafting.ts';

self.onmessage = async ({ data: { transcript, name } }: MessageEvent<DraftTask>) => {
  self.postMessage(await answer(transcript, name));
};

async function answer(transcript: string, name: string): Promise<DraftAnswer> {
  const bytes = await fetchBytes(talks, () => undefined).catch(() => null);
  if (bytes === null) return { kind: 'unreachable' };
  const draft = draftFrom(readTranscript(transcript), { name, read: readerFrom(bytes, new Matrices()) });
  return draft.groups.length === 0 ? { kind: 'nothing' } : { kind: 'drafted', file: draftFile(draft) };
}
