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
  author: () => import('./author/author-page.tsx'),
  calculator: () => import('./calculator/calculator-page.tsx'),
  kit: () => import('./kit/kit-page.tsx'),
  enrol: () => import('./enrol/enrol-page.tsx'),
  settings: () => import('./pages/settings-page.tsx'),
};
type Part = keyof typeof parts;

const isPart = (name: string): name is Part => Object.hasOwn(parts, name);
/** They neither speak nor listen. */
const silent: ReadonlySet<Part> = new Set<Part>(['tools', 'calculator']);

/**
 * Fetches the screen that an address asks for, together with the speech that it stands in and not after it. What cannot be fetched is
 * asked for again, and told, when the screen is drawn.
 */
export async function fetchAhead(hash: string): Promise<void> {
  const name = /^#\/([^/]+)/u.exec(hash)?.[1] ?? '';
  if (!isPart(name)) return;
  const wanted: readonly Part[] = silent.has(name) ? [name] : [name, 'speech'];
  await Promise.allSettled(wanted.map((part) => parts[part]()));
}

export const WithSpeech = lazy(() => parts.speech().then((module) => ({ default: module.WithSpeech })));
export const JobPage = lazy(() => parts.job().then((module) => ({ default: module.JobPage })));
export const RecordPage = lazy(() => parts.record().then((module) => ({ default: module.RecordPage })));
export const HandOverPage = lazy(() => parts['hand-over']().then((module) => ({ default: module.HandOverPage })));
export const TakeInPage = lazy(() => parts['take-in']().then((module) => ({ default: module.TakeInPage })));
export const ToolsPage = lazy(() => parts.tools().then((module) => ({ default: module.ToolsPage })));
export const ReviewScreen = lazy(() => parts.review().then((module) => ({ default: module.ReviewScreen })));
export const AuthorPage = lazy(() => parts.author().then((module) => ({ default: module.AuthorPage })));
export const CalculatorPage = lazy(() => parts.calculator().then((module) => ({ default: module.CalculatorPage })));
export const ProcedureKitPage = lazy(() => parts.kit().then((module) => ({ default: module.ProcedureKitPage })));
export const JobKitPage = lazy(() => parts.kit().then((module) => ({ default: module.JobKitPage })));
export const EnrolPage = lazy(() => parts.enrol().then((module) => ({ default: module.EnrolPage })));
export const SettingsPage = lazy(() => parts.settings().then((module) => ({ default: module.SettingsPage })));
