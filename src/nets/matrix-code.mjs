// Compiles matrix.wat into matrix-code.ts. Wants the package "wabt" (npm, used here only): node matrix-code.mjs PATH_TO_WABT
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const wabt = await createRequire(import.meta.url)(process.argv[2])();
const folder = new URL('.', import.meta.url);
const { buffer } = wabt.parseWat('matrix.wat', readFileSync(new URL('matrix.wat', folder), 'utf8'), { simd: true }).toBinary({});
const text = Buffer.from(buffer).toString('base64');
writeFileSync(
  new URL('matrix-code.ts', folder),
  `/** The WebAssembly of matrix.wat, in base64. Made by matrix-code.mjs. */\nexport const matrixCode =\n  '${text}';\n`,
);
