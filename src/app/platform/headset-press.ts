import type { KeyAction } from '../settings.ts';
import type { KeyHandlers } from './keys.ts';

/** What a press does. A headset tells of presses, not of how long a button is held: the first opens the ear, the next closes it. */
export function pressHeadset(handlers: KeyHandlers): (action: KeyAction | null) => void {
  let talking = false;
  return (action) => {
    if (action === null) return;
    if (action === 'talk') {
      talking = !talking;
      handlers.talk(talking);
    } else handlers.act(action);
  };
}
