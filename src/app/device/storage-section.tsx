import { useEffect, useState } from 'react';
import { recordingLimits } from '../../journal/notes.ts';
import { browserRoom, keepStorage, roomLeft } from '../../journal/storage-room.ts';
import { useSettings } from '../settings-context.ts';
import { useDeviceWords } from './use-device-words.ts';

interface Room {
  readonly isKept: boolean;
  readonly left: number | null;
}

/** Whether the browser may clear the records, and how much room there is; with the way to ask. */
export function StorageSection() {
  const { title } = useDeviceWords().storage;
  return (
    <section className="stack" aria-labelledby="storage">
      <h2 id="storage">{title}</h2>
      <StorageState />
    </section>
  );
}

/** The same without a heading, for a section that tells more. */
export function StorageState() {
  const words = useDeviceWords().storage;
  const { settings } = useSettings();
  const [room, setRoom] = useState<Room | null>(null);
  const [wasAsked, setWasAsked] = useState(false);
  useEffect(() => {
    let current = true;
    void lookAtRoom().then((found) => {
      if (current) setRoom(found);
    });
    return () => {
      current = false;
    };
  }, []);
  if (room === null) return null;
  const ask = async () => {
    const isKept = await keepStorage(browserRoom());
    setWasAsked(true);
    setRoom({ ...room, isKept });
  };
  const isLow = room.left !== null && room.left < recordingLimits.reserve;
  return (
    <>
      <p className={room.isKept ? 'good' : 'warn'}>{room.isKept ? words.kept : words.notKept}</p>
      <p className={isLow ? 'bad' : 'quiet'}>
        {room.left === null ? words.unknownRoom : words.room(sizeText(room.left, settings.language))}
        {isLow ? ` ${words.low}` : ''}
      </p>
      {room.isKept ? null : (
        <div className="row">
          <button type="button" onClick={() => void ask()}>
            {words.ask}
          </button>
        </div>
      )}
      {wasAsked && !room.isKept ? <p role="status">{words.refused}</p> : null}
    </>
  );
}

async function lookAtRoom(): Promise<Room> {
  const storage = browserRoom();
  const isKept = (await storage?.persisted().catch(() => false)) ?? false;
  return { isKept, left: await roomLeft(storage) };
}

/** In the largest unit that leaves a number above one. */
function sizeText(bytes: number, language: string): string {
  const [unit, size] =
    bytes >= 1e9 ? (['gigabyte', 1e9] as const) : bytes >= 1e6 ? (['megabyte', 1e6] as const) : (['kilobyte', 1e3] as const);
  return new Intl.NumberFormat(language, { style: 'unit', unit, maximumFractionDigits: 1 }).format(bytes / size);
}
