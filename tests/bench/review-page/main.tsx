import { createRoot } from 'react-dom/client';
import { parseProcedure } from '../../../src/procedure/parse.ts';
import { planJob } from '../../../src/procedure/plan.ts';
import type { Plan } from '../../../src/procedure/plan-types.ts';
import { ReviewPage } from '../../../src/app/review/review-page.tsx';
import type { TrainerNotes } from '../../../src/review/notes.ts';
import { noNotes } from '../../../src/review/notes.ts';
import '../../../src/app/style.css';

// The review alone, for measuring it and looking at it without the rest of the app.
const texts = import.meta.glob<string>('../../../procedures/*.yaml', { query: '?raw', import: 'default', eager: true });
let notes: TrainerNotes = noNotes;
const spoken: string[] = [];

function plans(): readonly Plan[] {
  return Object.entries(texts).flatMap(([name, text]) => {
    const parsed = parseProcedure(text, name);
    if (!parsed.ok) return [];
    return [...parsed.file.variants.keys()].flatMap((build) => {
      const planned = planJob(parsed.file, { build, spokenUnit: null, crib: null, today: '2025-07-11' });
      return planned.ok ? [planned.plan] : [];
    });
  });
}

const store = {
  read: () => Promise.resolve(notes),
  write(changed: TrainerNotes) {
    notes = changed;
    return Promise.resolve();
  },
};

// eslint-disable-next-line @typescript-eslint/require-await -- no job of its own, but the page asks as if there were some
async function* noLogs(): AsyncGenerator<never> {
  yield* [];
}
const loadPlans = (): Promise<readonly Plan[]> => Promise.resolve(plans());

Object.assign(globalThis, { spoken });
document.documentElement.dataset['theme'] = new URLSearchParams(location.search).get('theme') ?? 'dark';
createRoot(document.getElementById('root') ?? document.body).render(
  <ReviewPage loadLogs={noLogs} loadPlans={loadPlans} notes={store} speak={(text) => spoken.push(text)} />,
);
