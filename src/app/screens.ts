import { createElement, use } from 'react';
import type { ComponentType, ReactNode } from 'react';

/** A part of the app that is fetched when somebody goes there, or ahead of its drawing. */
interface Later<Module> {
  readonly ahead: () => Promise<void>;
  /** What of it is drawn. At once where it was fetched ahead: React's `lazy` would show the placeholder in between, and keep it for 300 ms. */
  readonly drawing: <Props extends object>(pick: (module: Module) => ComponentType<Props>) => (props: Props) => ReactNode;
}

function later<Module>(load: () => Promise<Module>): Later<Module> {
  let there: Module | null = null;
  let coming: Promise<Module> | null = null;
  return {
    ahead: async () => {
      there = await load();
    },
    drawing: (pick) =>
      function Drawn(props) {
        return createElement(pick(there ?? use((coming ??= load()))), props);
      },
  };
}

/** The screens beyond the first, by the first part of their address; each is fetched when somebody goes there. */
const parts = {
  speech: later(() => import('./with-speech.tsx')),
  job: later(() => import('./work/job-page.tsx')),
  record: later(() => import('./pages/record-page.tsx')),
  'hand-over': later(() => import('./record/hand-over-page.tsx')),
  'take-in': later(() => import('./record/take-in-page.tsx')),
  tools: later(() => import('./pages/tools-page.tsx')),
  review: later(() => import('./review/review-screen.tsx')),
  author: later(() => import('./author/library-view.tsx')),
  bench: later(() => import('./author/bench-page.tsx')),
  calculator: later(() => import('./calculator/calculator-page.tsx')),
  kit: later(() => import('./kit/kit-page.tsx')),
  enrol: later(() => import('./enrol/enrol-page.tsx')),
  settings: later(() => import('./pages/settings-page.tsx')),
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
  await Promise.allSettled(wanted.map((one) => parts[one].ahead()));
}

export const WithSpeech = parts.speech.drawing((module) => module.WithSpeech);
export const JobPage = parts.job.drawing((module) => module.JobPage);
export const RecordPage = parts.record.drawing((module) => module.RecordPage);
export const HandOverPage = parts['hand-over'].drawing((module) => module.HandOverPage);
export const TakeInPage = parts['take-in'].drawing((module) => module.TakeInPage);
export const ToolsPage = parts.tools.drawing((module) => module.ToolsPage);
export const ReviewScreen = parts.review.drawing((module) => module.ReviewScreen);
export const LibraryView = parts.author.drawing((module) => module.LibraryView);
export const BenchPage = parts.bench.drawing((module) => module.BenchPage);
export const CalculatorPage = parts.calculator.drawing((module) => module.CalculatorPage);
export const ProcedureKitPage = parts.kit.drawing((module) => module.ProcedureKitPage);
export const JobKitPage = parts.kit.drawing((module) => module.JobKitPage);
export const EnrolPage = parts.enrol.drawing((module) => module.EnrolPage);
export const SettingsPage = parts.settings.drawing((module) => module.SettingsPage);
