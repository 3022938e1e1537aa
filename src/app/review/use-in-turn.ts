import { startTransition, useCallback, useEffect, useState } from 'react';
import { drawInTurn, ownFrame } from './in-turn.ts';

interface InTurn {
  /** How many are to be there by now. */
  readonly shown: number;
  readonly isComing: boolean;
  /** Begins once more with the first few. */
  readonly again: () => void;
}

/** For what is long, such as the rows of a table: it comes so many a frame until all that are wanted are there. */
export function useInTurn(wanted: number, atOnce: number): InTurn {
  const [shown, setShown] = useState(atOnce);
  const isComing = shown < wanted;
  useEffect(() => {
    if (!isComing) return;
    return drawInTurn(inOneFrame(() => startTransition(() => setShown(shown + atOnce))));
  }, [isComing, shown, atOnce]);
  const again = useCallback(() => setShown(atOnce), [atOnce]);
  return { shown, isComing, again };
}

function* inOneFrame(act: () => void): Generator<typeof ownFrame> {
  act();
  yield ownFrame;
}
