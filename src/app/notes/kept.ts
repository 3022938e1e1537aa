import type { FailureCode } from '../../phrasing/lines.ts';
import type { AddedRecording, Recordings } from '../../journal/notes.ts';
import type { TakenNote } from '../../job/decide.ts';
import type { Recorded } from '../../job/events.ts';
import type { Now } from '../../job/dialogue.ts';

/** Where a note goes: the recording beside the journal, and the event in it. */
export interface NoteDesk {
  readonly recordings: Pick<Recordings, 'add' | 'remove'>;
  readonly job: string;
  readonly step: () => string | null;
  readonly now: () => Now;
  /** The runner's: stores the event and says so. */
  readonly note: (note: TakenNote) => Promise<void>;
  readonly trouble: (code: FailureCode) => Promise<void>;
  readonly events: () => readonly Recorded[];
}

/**
 * Keeps what was recorded, then the event that names it; each failure is said. When the recording cannot be kept its words still are; when
 * the event cannot be stored the recording goes again, since nothing would name it.
 */
export async function keepRecording(
  desk: NoteDesk,
  kind: 'audio' | 'photo',
  contents: Blob,
  { text, question }: Pick<TakenNote, 'text' | 'question'>,
): Promise<void> {
  const { job, recordings } = desk;
  const added = await recordings.add({ job, step: desk.step(), kind, moment: desk.now().moment }, contents);
  if (!added.ok) {
    if (text !== '') await desk.note({ text, recording: null, media: null, question });
    await desk.trouble(troubleOf(added));
    return;
  }
  const { id } = added.recording;
  await desk.note({ text, recording: id, media: kind, question });
  const isNamed = desk.events().some(({ event }) => event.type === 'noted' && event.recording === id);
  if (!isNamed) await recordings.remove({ id, job });
}

export function troubleOf(failed: Exclude<AddedRecording, { ok: true }>): FailureCode {
  switch (failed.code) {
    case 'empty':
      return 'note-empty';
    case 'too-large':
      return 'note-too-large';
    case 'job-too-large':
      return 'notes-full';
    case 'not-stored-disk-full':
      return 'note-disk-full';
    default:
      return failed.code;
  }
}
