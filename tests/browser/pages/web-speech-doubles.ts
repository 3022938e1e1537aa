import { systemClock } from '../../../src/speech/clock.ts';
import type { ManualClock } from '../../speech/doubles/manual-clock.ts';
import { strictRecognition } from '../../speech/doubles/strict-recognition.ts';
import { PlainUtterance, StrictSynthesis } from '../../speech/doubles/strict-synthesis.ts';

// The doubles only ask a clock for the time and for timers, which the page's own has too.
const clock = systemClock as unknown as ManualClock;
const recognition = strictRecognition(clock);
const synthesis = new StrictSynthesis(clock);
synthesis.habits.startsAfter = 5;
synthesis.habits.letterTakes = 0.2;

const put = (name: string, value: unknown): void => {
  Object.defineProperty(window, name, { value, configurable: true, writable: true });
};
put('SpeechRecognition', recognition.Recognition);
put('webkitSpeechRecognition', recognition.Recognition);
put('SpeechRecognitionPhrase', undefined);
put('speechSynthesis', synthesis);
put('SpeechSynthesisUtterance', PlainUtterance);
put('doubles', { recognition, synthesis, clock });
