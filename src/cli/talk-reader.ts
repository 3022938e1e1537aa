import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readerFrom, type ReadTalk } from '../drafting/reader/net.ts';
import { Matrices } from '../nets/matrices.ts';

/** The net that reads talk, from its file. */
export function talkReader(): ReadTalk {
  return readerFrom(readFileSync(fileURLToPath(new URL('../drafting/reader/model/talks.net', import.meta.url))), new Matrices());
}
