import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder of this test's own, gone after it, and a way to put a file into it. */
export function scratchFolder(): { readonly path: (name: string) => string; readonly put: (name: string, text: string) => string } {
  const folder = mkdtempSync(join(tmpdir(), 'undertray-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const path = (name: string) => join(folder, name);
  return {
    path,
    put: (name, text) => {
      writeFileSync(path(name), text);
      return path(name);
    },
  };
}
