/**
 * Weighs the built app in dist/: the JavaScript that must be there before the first screen stands, and every part that is fetched later,
 * each against its budget, compressed by gzip at its default level as a plain server does it. Run after `npm run build`. A budget whose
 * part is missing fails too: a check that measures nothing would always pass.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const built = 'dist';
const assets = join(built, 'assets');

/** Kilobytes (1000 bytes) for each part beyond the first screen, by the name of its chunk or file without the hash. */
const budgets: Readonly<Record<string, number>> = {
  'first screen': 95,
  // The journal, fetched as soon as the first screen stands; the parts below are weighed without both.
  services: 50,
  'with-speech': 80,
  'job-page': 100,
  'record-page': 75,
  'tools-page': 50,
  'settings-page': 45,
  'enrol-page': 55,
  'device-panel': 12,
  offline: 3,
  library: 70,
  fr: 11,
  'library-view': 30,
  // The editor with its highlighter and schema help.
  'bench-page': 330,
  // Reading and checking procedures.
  'library-work': 90,
  // Drafting, beside the page.
  'draft.worker': 150,
  // The reader of procedures, for the invented workshop.
  'shipped-plans': 65,
  'review-screen': 50,
  'review.worker': 85,
  // The plotting library.
  src: 135,
  'kit-page': 105,
  'calculator-page': 60,
  'outbox-section': 55,
  // What the start page shows once the jobs have been read.
  'home-extras': 20,
  // What is due after signed jobs, in the words of the voice.
  'follow-ups': 50,
  jsQR: 50,
  'hearing.worker': 32,
  'flite.worker': 12,
  // Pronunciations of the words of the commands and of names to sign with; the ear's networks.
  'dictionary.txt': 45,
  'ear.net': 1900,
  'closer.net': 2950,
  // The net that reads talk-throughs.
  'talks.net': 3400,
};
/** For a part that nobody has given a budget yet. */
const otherParts = 40;

/** Files that are no code have a budget too: what the local ear and the drafting are made of, by name and ending without the hash. */
const dataFiles = ['dictionary.txt', 'ear.net', 'closer.net', 'talks.net'] as const;

const files = readdirSync(assets).filter((file) => file.endsWith('.js'));
const text = new Map(files.map((file) => [file, readFileSync(join(assets, file), 'utf8')]));
const weight = new Map([...text].map(([file, code]) => [file, gzipSync(code).length / 1000]));

const named = (pattern: RegExp, code: string): string[] =>
  [...code.matchAll(pattern)].map((match) => match[1] ?? '').filter((file) => text.has(file));
/** What a file needs before it can run. */
const needs = (code: string) => named(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/gu, code);
/** What it may ask for later: dynamic imports and workers. */
const mayAsk = (code: string) => named(/(?:import\(\s*[`"']\.\/|new URL\(\s*[`"'](?:\.\/|assets\/)?)([^`"']+\.js)[`"']/gu, code);

function withNeeds(file: string, into = new Set<string>()): Set<string> {
  if (into.has(file)) return into;
  into.add(file);
  for (const needed of needs(text.get(file) ?? '')) withNeeds(needed, into);
  return into;
}

const kilobytes = (parts: Iterable<string>): number => [...parts].reduce((sum, file) => sum + (weight.get(file) ?? 0), 0);
const partName = (file: string): string => file.replace(/-[\w-]{8}\.js$/u, '');

const page = readFileSync(join(built, 'index.html'), 'utf8');
const entries = named(/assets\/([^"']+\.js)/gu, page);
const first = new Set(entries.flatMap((entry) => [...withNeeds(entry)]));
const measured = new Map<string, number>([['first screen', entries.length === 0 ? Number.NaN : kilobytes(first)]]);
const later = new Set([...text.values()].flatMap(mayAsk).filter((file) => !first.has(file)));
const journal = files.filter((file) => partName(file) === 'services');
const afterwards = new Set([...first, ...journal.flatMap((file) => [...withNeeds(file)])]);
for (const file of later) {
  const name = partName(file);
  const there = name === 'services' ? first : afterwards;
  const own = kilobytes([...withNeeds(file)].filter((part) => !there.has(part)));
  measured.set(name, Math.max(measured.get(name) ?? 0, own));
}

const data = readdirSync(assets);
for (const name of dataFiles) {
  const [stem = '', end = ''] = name.split('.');
  const file = data.find((one) => one.startsWith(`${stem}-`) && one.endsWith(`.${end}`));
  if (file !== undefined) measured.set(name, gzipSync(readFileSync(join(assets, file))).length / 1000);
}

let failed = false;
for (const [name, size] of [...measured].sort(([, a], [, b]) => b - a)) {
  const budget = budgets[name] ?? otherParts;
  const isOver = !(size <= budget);
  failed ||= isOver;
  console.log(`${isOver ? 'OVER ' : '     '}${name.padEnd(28)}${size.toFixed(1).padStart(7)} kB of ${budget}`);
}
for (const name of Object.keys(budgets).filter((one) => !measured.has(one))) {
  failed = true;
  console.log(`GONE ${name}: nothing of that name was built`);
}
if (failed) process.exitCode = 1;
