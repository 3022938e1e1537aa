import { draftOf } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';

export const hear = (text: string) => hearTalk(readTranscript(text));

/** All that was heard, with nothing held back: what the rules make of a talk, whatever it is trusted. */
export const wholeDraft = (text: string) => draftOf(hear(text), { name: 'practice', holdBack: false });
