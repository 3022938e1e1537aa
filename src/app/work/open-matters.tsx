import { matterAtHand } from '../../job/dialogue.ts';
import { openMatters } from '../../job/matters.ts';
import { packFor } from '../../phrasing/packs.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';
import type { RunnerView } from './runner.ts';

/** Everything that is open at close-out, in the order in which it is read out: the one at hand lit, and how each was answered. */
export function OpenMatters({ view }: { readonly view: RunnerView }) {
  const words = useWords().work.closeOut;
  const { closeOut } = packFor(useSettings().settings.language);
  const { plan, job } = view.dialogue;
  const matters = job.work.phase === 'closing' ? openMatters(plan, job.work) : [];
  const now = matterAtHand(plan, job)?.matter.id;
  if (job.signed !== null || matters.length === 0) return null;
  return (
    <section className="stack" aria-label={words.title}>
      <h2>{words.title}</h2>
      <ol className="matters">
        {matters.map((matter) => {
          const accepted = Object.hasOwn(job.work.accepted, matter.id) ? job.work.accepted[matter.id] : undefined;
          const isNow = matter.id === now;
          return (
            <li
              key={matter.id}
              data-matter={matter.kind}
              data-answer={accepted === undefined ? 'none' : 'accepted'}
              aria-current={isNow ? 'step' : undefined}
            >
              <span>{closeOut.matter(matter)}</span>
              <span className={accepted !== undefined ? 'good small' : isNow ? 'small' : 'quiet small'}>
                {accepted !== undefined ? words.accepted(closeOut.reason(accepted.reason, accepted.text)) : isNow ? words.now : words.open}
              </span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
