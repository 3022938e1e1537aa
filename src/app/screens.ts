import { lazy } from 'react';

/** The screens beyond the first, by the first part of their address; each is fetched when somebody goes there. */
const parts = {
  speech: () => import('./with-speech.tsx'),
  job: () => import('./work/job-page.tsx'),
  record: () => import('./pages/record-page.tsx'),
  'hand-over': () => import('./record/hand-over-page.tsx'),
  'take-in': () => import('./record/take-in-page.tsx'),
  tools: () => import('./pages/tools-page.tsx'),
  review: () => import('./review/review-screen.tsx'),
  author: () => import('./author/library-view.tsx'),
  bench: () => import('./author/bench-page.tsx'),
  calculator: () => import('./calculator/calculator-page.tsx'),
  kit: () => import('./kit/kit-page.tsx'),
  enrol: () => import('./enrol/enrol-page.tsx'),
  settings: () => import('./pages/settings-page.tsx'),
};
type Part = keyof typeof parts;

const isPart = (name: string): name is Part => Object.hasOwn(parts, name);
/** They neither speak nor listen. */
const silent: ReadonlySet<Part> = new Set<Part>(['tools', 'calculator', 'author']);

/** `#/author/NAME` is the bench with its editor, `#/author` the library. */
function partAt(hash: string): Part | null {
  const [, name = '', more = ''] = /^#\/([^/]*)\/?(.*)/u.exec(hash) ?? [];
  const part = name === 'author' && more !== '' ? 'bench' : name;
  return isPart(part) ? part : null;
}

/**
 * Fetches the screen that an address asks for, together with the speech that it stands in and not after it. What cannot be fetched is
 * asked for again, and told, when the screen is drawn.
 */
export async function fetchAhead(hash: string): Promise<void> {
  const part = partAt(hash);
  if (part === null) return;
  const wanted: readonly Part[] = silent.has(part) ? [part] : [part, 'speech'];
  await Promise.allSettled(wanted.map((one) => parts[one]()));
}

export const WithSpeech = lazy(() => parts.speech().then((module) => ({ default: module.WithSpeech })));
export const JobPage = lazy(() => parts.job().then((module) => ({ default: module.JobPage })));
export const RecordPage = lazy(() => parts.record().then((module) => ({ default: module.RecordPage })));
export const HandOverPage = lazy(() => parts['hand-over']().then((module) => ({ default: module.HandOverPage })));
export const TakeInPage = lazy(() => parts['take-in']().then((module) => ({ default: module.TakeInPage })));
export const ToolsPage = lazy(() => parts.tools().then((module) => ({ default: module.ToolsPage })));
export const ReviewScreen = lazy(() => parts.review().then((module) => ({ default: module.ReviewScreen })));
export const LibraryView = lazy(() => parts.author().then((module) => ({ default: module.LibraryView })));
export const BenchPage = lazy(() => parts.bench().then((module) => ({ default: module.BenchPage })));
export const CalculatorPage = lazy(() => parts.calculator().then((module) => ({ default: module.CalculatorPage })));
export const ProcedureKitPage = lazy(() => parts.kit().then((module) => ({ default: module.ProcedureKitPage })));
export const JobKitPage = lazy(() => parts.kit().then((module) => ({ default: module.JobKitPage })));
export const EnrolPage = lazy(() => parts.enrol().then((module) => ({ default: module.EnrolPage })));
export const SettingsPage = lazy(() => parts.settings().then((module) => ({ default: module.SettingsPage })));
