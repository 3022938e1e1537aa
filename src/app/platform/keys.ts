import { useEffect } from 'react';
import type { KeyAction } from '../settings.ts';

export interface KeyHandlers {
  readonly act: (action: Exclude<KeyAction, 'talk'>) => void;
  readonly talk: (held: boolean) => void;
}

/** Keys and pedals. Typing into a field is left alone, and so are shortcuts of the browser. */
export function useKeys(keys: Readonly<Record<string, KeyAction>>, handlers: KeyHandlers | null): void {
  useEffect(() => {
    if (handlers === null) return;
    const actionOf = (event: KeyboardEvent): KeyAction | null => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return null;
      // Enter on a focused button presses that button, as everywhere else.
      if (
        (event.code === 'Enter' || event.code === 'Space') &&
        event.target instanceof HTMLElement &&
        event.target.closest('button, a, summary, label') !== null
      )
        return null;
      return keys[event.code] ?? null;
    };
    const down = (event: KeyboardEvent) => {
      const action = actionOf(event);
      if (action === null) return;
      event.preventDefault();
      // A pedal that is held down must not count bolts by itself.
      if (event.repeat) return;
      if (action === 'talk') handlers.talk(true);
      else handlers.act(action);
    };
    const up = (event: KeyboardEvent) => {
      if (actionOf(event) === 'talk') handlers.talk(false);
    };
    addEventListener('keydown', down);
    addEventListener('keyup', up);
    return () => {
      removeEventListener('keydown', down);
      removeEventListener('keyup', up);
    };
  }, [keys, handlers]);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.isContentEditable || ['INPUT', 'TEXTAREA', 'SELECT'].includes(target.tagName));
}
