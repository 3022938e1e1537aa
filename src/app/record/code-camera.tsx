import { useEffect, useRef, useState } from 'react';
import { collectCodes } from '../../journal/hand-over/codes.ts';
import type { Unpacked } from '../../journal/hand-over/packed.ts';
import { useWords } from '../words/words.ts';
import type { FailureCode } from '../../phrasing/lines.ts';
import { closeCamera, openCamera } from './camera.ts';
import { codeReader } from './code-reader.ts';
import { useRecordWords } from './use-record-words.ts';

interface Progress {
  readonly read: number;
  readonly of: number;
  readonly missing: readonly number[];
}

/** Reads the codes off another device's screen until none is missing. */
export function CodeCamera({ onRead }: { readonly onRead: (job: Unpacked) => void }) {
  const words = useRecordWords().takeIn;
  const troubles = useWords().trouble;
  const video = useRef<HTMLVideoElement>(null);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [trouble, setTrouble] = useState<FailureCode | null>(null);
  const [isOther, setOther] = useState(false);
  useEffect(() => {
    const shown = video.current;
    if (shown === null) return;
    let stream: MediaStream | null = null;
    let over = false;
    // Asked again after each wait: meanwhile the screen may have been left.
    const isOver = () => over;
    const collector = collectCodes();
    const watch = async (): Promise<void> => {
      const opened = await openCamera();
      if (!opened.ok) {
        setTrouble(opened.code);
        return;
      }
      if (isOver()) {
        closeCamera(opened.stream);
        return;
      }
      stream = opened.stream;
      shown.srcObject = stream;
      await shown.play();
      const reader = await codeReader();
      while (!isOver()) {
        for (const text of await reader.read(shown)) {
          const taken = collector.take(text);
          setOther(!taken.ok && taken.code === 'other-hand-over');
          if (!taken.ok || !taken.isNew) continue;
          setProgress({ read: taken.of - taken.missing.length, of: taken.of, missing: taken.missing });
          if (taken.missing.length > 0) continue;
          const whole = await collector.finish();
          if (whole.ok || whole.code !== 'parts-missing') {
            over = true;
            onRead(whole);
            return;
          }
        }
        await new Promise(requestAnimationFrame);
      }
    };
    // A page that is left while the picture starts ends the waiting with an error that nobody needs.
    watch().catch(() => undefined);
    return () => {
      over = true;
      if (stream !== null) closeCamera(stream);
    };
  }, [onRead]);
  return (
    <div className="stack">
      {trouble === null ? (
        <p>{words.aim}</p>
      ) : (
        <p className="trouble" role="alert">
          {troubles[trouble]}
        </p>
      )}
      <video ref={video} className="code-camera" muted playsInline />
      <p role="status" className="count">
        {progress === null ? '…' : words.read(progress.read, progress.of)}
      </p>
      {progress === null || progress.missing.length === 0 || progress.missing.length > 12 ? null : (
        <p className="quiet">{words.missing(progress.missing.join(', '))}</p>
      )}
      {isOther ? <p className="warn">{words.otherJob}</p> : null}
    </div>
  );
}
