import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { useSettings } from '../settings-context.ts';
import { EffectTable } from './effect-table.tsx';
import { forgetVoice, isOutdated, keepVoice, type KeptVoice, loadVoice, onVoiceChange } from './own-voice-store.ts';
import { useEnrolWords } from './words/words.ts';
import './enrol.css';

/** Whose voice the ear has got used to, what that is worth, and how to be rid of it. */
export function VoiceSection() {
  const words = useEnrolWords();
  const text = words.section;
  const { settings } = useSettings();
  const [voice, setVoice] = useState<KeptVoice | null>(null);
  const [isForgotten, setForgotten] = useState(false);
  useEffect(() => {
    const look = () => void loadVoice().then(setVoice);
    look();
    return onVoiceChange(look);
  }, []);
  return (
    <div className="stack">
      {voice === null ? (
        <p role="status">{isForgotten ? text.forgotten : text.none}</p>
      ) : (
        <>
          <p>{text.kept(voice.person, new Date(voice.when).toLocaleDateString(settings.language))}</p>
          {isOutdated(voice) ? <p className="warn">{text.outdated}</p> : <EffectTable effect={voice.effect} />}
          <label className="check">
            <input type="checkbox" checked={voice.inUse} onChange={(event) => void keepVoice({ ...voice, inUse: event.target.checked })} />
            {text.use}
          </label>
          <button
            type="button"
            onClick={() => {
              setForgotten(true);
              void forgetVoice();
            }}
          >
            {text.forget}
          </button>
        </>
      )}
      <Link className="button" href="/enrol">
        {text.offer}
      </Link>
    </div>
  );
}
