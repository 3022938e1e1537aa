import { useEffect, useRef } from 'react';
import { closeCamera, openCamera } from '../record/camera.ts';
import { useRecordWords } from '../record/use-record-words.ts';
import { keepRecording } from './kept.ts';
import type { NoteDesk } from './kept.ts';
import { takePicture } from './photo.ts';

/** A camera wants a moment to find light and focus (common practice, not measured). */
const settling = 1_500;

/** Takes one picture by itself: whoever asked for it by voice has no hand free to press anything. */
export function PhotoTaker({ desk, onOver }: { readonly desk: NoteDesk; readonly onOver: () => void }) {
  const words = useRecordWords().notes;
  const video = useRef<HTMLVideoElement>(null);
  useEffect(() => {
    const shown = video.current;
    if (shown === null) return;
    let over = false;
    // Asked again after each wait: meanwhile the screen may have been left.
    const isOver = () => over;
    let stream: MediaStream | null = null;
    const take = async (): Promise<void> => {
      const opened = await openCamera();
      if (isOver()) {
        if (opened.ok) closeCamera(opened.stream);
        return;
      }
      if (!opened.ok) {
        await desk.trouble(opened.code);
        onOver();
        return;
      }
      stream = opened.stream;
      shown.srcObject = stream;
      await shown.play();
      await new Promise((resolve) => setTimeout(resolve, settling));
      if (isOver()) return;
      const picture = await takePicture(shown);
      closeCamera(stream);
      if (picture === null) await desk.trouble('no-camera');
      else await keepRecording(desk, 'photo', picture, { text: '', question: false });
      onOver();
    };
    // Leaving the screen while the picture starts ends `play` with an error that nobody needs.
    take().catch(() => undefined);
    return () => {
      over = true;
      if (stream !== null) closeCamera(stream);
    };
  }, [desk, onOver]);
  return (
    <section className="panel stack" aria-label={words.photo}>
      <p>{words.looking}</p>
      <video ref={video} className="code-camera" muted playsInline />
      <div className="row">
        <button type="button" onClick={onOver}>
          {words.cancel}
        </button>
      </div>
    </section>
  );
}
