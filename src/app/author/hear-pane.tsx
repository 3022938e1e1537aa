import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { readThrough, type Reading } from '../../job/read-through.ts';
import { packFor } from '../../phrasing/packs.ts';
import type { ProcedureFile } from '../../procedure/parse.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { BuildPicker } from './build-picker.tsx';
import { planOf } from './planned.ts';
import { useAuthorWords } from './words/words.ts';

/** What the job will say, to read and to hear. `wanted` is a step to say at once. */
export function HearPane({
  file,
  build,
  setBuild,
  wanted,
  onRehearse,
}: {
  readonly file: ProcedureFile | null;
  readonly build: string;
  readonly setBuild: (build: string) => void;
  readonly wanted: { readonly step: string } | null;
  readonly onRehearse: (step: string) => void;
}) {
  const { hear: text, form } = useAuthorWords();
  const { speech } = useServices();
  const { settings } = useSettings();
  const speaking = useSyncExternalStore(speech.subscribe, () => speech.status().voice === 'speaking');
  const [queue, setQueue] = useState<readonly string[]>([]);
  const pack = packFor(settings.language);
  const plan = useMemo(() => planOf(file, build, settings.unit), [file, build, settings.unit]);
  const readings = useMemo(() => (plan === null ? [] : readThrough(plan)), [plan]);
  const shown = (reading: Reading) => reading.lines.map((line) => pack.say(line)).filter((line) => line.show !== '');
  const spoken = (reading: Reading) =>
    shown(reading)
      .map((line) => line.say)
      .join(' ');

  // One reading after the other: each is given to the voice when it has fallen silent after the one before.
  useEffect(() => {
    if (speaking || queue.length === 0) return;
    const pause = setTimeout(() => {
      const [next, ...rest] = queue;
      if (next !== undefined) speech.speak(next, null);
      setQueue(rest);
    }, 250);
    return () => clearTimeout(pause);
  }, [speaking, queue, speech]);
  useEffect(() => () => speech.hush(), [speech]);

  const say = async (chosen: readonly Reading[]) => {
    await speech.begin();
    const [first, ...rest] = chosen.map(spoken);
    if (first !== undefined) speech.speak(first, null);
    setQueue(rest);
  };
  const stop = () => {
    setQueue([]);
    speech.hush();
  };
  const granted = useRef<typeof wanted>(null);
  // Said once for each wish, and not before the text that it was made for has been read.
  useEffect(() => {
    const reading = readings.find(({ step }) => step?.id === wanted?.step);
    if (wanted === null || reading === undefined || granted.current === wanted) return;
    granted.current = wanted;
    void say([reading]);
  });

  if (plan === null) return <p className="quiet">{text.cannot}</p>;
  return (
    <div className="author-hear">
      <p className="quiet small">{text.about}</p>
      <div className="row">
        <BuildPicker file={file} build={build} setBuild={setBuild} />
        {speaking || queue.length > 0 ? (
          <button type="button" onClick={stop}>
            {text.stop}
          </button>
        ) : (
          <button type="button" className="primary" onClick={() => void say(readings)}>
            {text.whole}
          </button>
        )}
      </div>
      {readings.map((reading, index) => (
        <section key={reading.step?.id ?? index} className="author-reading">
          <div className="author-item-head">
            <h4>{reading.step === null ? (index === 0 ? text.opening : text.ending) : form.step(reading.step.number)}</h4>
            <span className="author-moves">
              <button
                type="button"
                className="author-small"
                aria-label={`${text.step}: ${reading.step === null ? (index === 0 ? text.opening : text.ending) : reading.step.number}`}
                onClick={() => void say([reading])}
              >
                {text.step}
              </button>
              {reading.step === null || reading.step.side !== null ? null : (
                <button
                  type="button"
                  className="author-small"
                  aria-label={`${text.rehearse}: ${reading.step.number}`}
                  onClick={() => onRehearse(reading.step?.id ?? '')}
                >
                  {text.rehearse}
                </button>
              )}
            </span>
          </div>
          {shown(reading).map((line, place) => (
            <p key={place}>{line.show}</p>
          ))}
        </section>
      ))}
    </div>
  );
}
