import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { dialogueStates, intentNames, type DialogueState } from '../../../src/phrasing/intents.ts';
import { legalIn } from '../../../src/job/legal.ts';
import { BadInput } from './options.ts';
import { readWav } from './sound.ts';

/** A line of clips.tsv with its sound. */
export interface FolderClip {
  readonly file: string;
  readonly state: DialogueState;
  readonly expected: string;
  /** At 16 kHz. */
  readonly sound: Float32Array;
}

/** Reads a folder with a clips.tsv. Throws `BadInput` that names the line, what was found and what was expected. */
export function readClipFolder(folder: string): FolderClip[] {
  const list = join(folder, 'clips.tsv');
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new BadInput(`--clips: ${folder} is no folder.`);
  if (!existsSync(list)) throw new BadInput(`--clips: ${list} is missing; expected lines of file<TAB>state<TAB>expected intent or none.`);
  const clips = readFileSync(list, 'utf8')
    .replace(/^\uFEFF/u, '')
    .split(/\r?\n/u)
    .flatMap((line, index) => (line.trim() === '' || line.startsWith('#') ? [] : [clipOf(line, `${list}, line ${index + 1}`, folder)]));
  if (clips.length === 0) throw new BadInput(`${list} holds no clips; expected lines of file<TAB>state<TAB>expected intent or none.`);
  return clips;
}

function clipOf(line: string, where: string, folder: string): FolderClip {
  const columns = line.split('\t').map((column) => column.trim());
  if (columns.length !== 3)
    throw new BadInput(
      `${where}: found ${columns.length} column${columns.length === 1 ? '' : 's'}, expected 3: file, state, expected intent or none, with tabs between.`,
    );
  const [file = '', stateName = '', expected = ''] = columns;
  const state = dialogueStates.find((one) => one === stateName);
  if (state === undefined) throw new BadInput(`${where}: found the state "${stateName}", expected one of ${dialogueStates.join(', ')}.`);
  const type = intentNames.find((one) => one === expected.split(':')[0]);
  if (expected !== 'none' && type === undefined)
    throw new BadInput(`${where}: found the intent "${expected}", expected none or one of ${intentNames.join(', ')}.`);
  if (type !== undefined && !legalIn[state].includes(type))
    throw new BadInput(`${where}: "${type}" may not be said while ${state}; expected none or one of ${legalIn[state].join(', ')}.`);
  return { file, state, expected, sound: soundOf(join(folder, file), where) };
}

function soundOf(path: string, where: string): Float32Array {
  if (!existsSync(path)) throw new BadInput(`${where}: ${path} is missing.`);
  try {
    return readWav(path);
  } catch (error) {
    throw new BadInput(`${where}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
