/** What a trainer has said about one run. */
export interface RunNote {
  readonly text: string;
  /** Why the run does not count, or null when it does. */
  readonly excluded: string | null;
  /** The pace as the trainer judged it: 1 is normal, 1.1 a tenth quicker. Null when not judged. */
  readonly rating: number | null;
}

/** A trainer's own writing, kept apart from the logs: those are never changed. */
export interface TrainerNotes {
  readonly v: 1;
  /** By job id. */
  readonly runs: Readonly<Record<string, RunNote>>;
  /** Code names by the name given, so that a person keeps theirs. */
  readonly codeNames: Readonly<Record<string, string>>;
}

export const noNotes: TrainerNotes = { v: 1, runs: {}, codeNames: {} };

/** Notes from two places as one; where both speak of a run or a name, the newcomer's stands. */
export function joinNotes(here: TrainerNotes, newcomer: TrainerNotes): TrainerNotes {
  return { v: 1, runs: { ...here.runs, ...newcomer.runs }, codeNames: { ...here.codeNames, ...newcomer.codeNames } };
}

/** Where a trainer's notes are kept. */
export interface ReviewNotes {
  read(): Promise<TrainerNotes>;
  /** Resolves once they are stored; rejects when they could not be. */
  write(notes: TrainerNotes): Promise<void>;
}

/** Notes from storage or a file, or null when they are none. Entries that make no sense are left out. */
export function parseNotes(value: unknown): TrainerNotes | null {
  if (!isRecord(value) || value['v'] !== 1) return null;
  const runs = Object.entries(isRecord(value['runs']) ? value['runs'] : {}).flatMap(([job, note]) => {
    const parsed = parseNote(note);
    return parsed === null ? [] : [[job, parsed] as const];
  });
  const codeNames = Object.entries(isRecord(value['codeNames']) ? value['codeNames'] : {}).filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string' && codeForm.test(entry[1]),
  );
  return { v: 1, runs: Object.fromEntries(runs), codeNames: Object.fromEntries(codeNames) };
}

const codeForm = /^[A-Z]\d{2,4}$/;

function parseNote(value: unknown): RunNote | null {
  if (!isRecord(value)) return null;
  const { text, excluded, rating } = value;
  const isRating = typeof rating === 'number' && rating >= 0.3 && rating <= 2;
  return {
    text: typeof text === 'string' ? text : '',
    excluded: typeof excluded === 'string' ? excluded : null,
    rating: isRating ? rating : null,
  };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
