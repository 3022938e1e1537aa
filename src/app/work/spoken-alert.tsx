import { useEffect } from 'react';
import type { ReactNode } from 'react';
import { useServices } from '../services.ts';
import { useWords } from '../words/words.ts';

/** Something that keeps a job from being worked on here: shown, and said as soon as the browser lets the page speak. */
export function SpokenAlert({ text, children }: { readonly text: string; readonly children: ReactNode }) {
  const words = useWords();
  const { speech } = useServices();
  useEffect(() => {
    // A page that nobody has touched yet may not make a sound; the button below is the touch.
    const touched = (navigator as { readonly userActivation?: UserActivation }).userActivation?.hasBeenActive === true;
    if (touched) void speech.begin().then(() => speech.speak(text, 'caution'));
    return () => speech.hush();
  }, [speech, text]);
  return (
    <div className="trouble" role="alert">
      <p className="sentence">{text}</p>
      <div className="row">
        {children}
        <button type="button" onClick={() => void speech.begin().then(() => speech.speak(text, 'caution'))}>
          {words.work.hear}
        </button>
      </div>
    </div>
  );
}
