import { legalIn } from '../../../src/job/legal.ts';
import { dialogueStates, reasons } from '../../../src/phrasing/intents.ts';
import { taughtForm } from '../../../src/phrasing/lexicon.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { torqueUnits } from '../../../src/torque/quantities.ts';
import { earDescriptions, earNames } from './ears.ts';
import { parts } from './options.ts';
import { benchVoices } from './voices.ts';

/** How the bench is used, with the states and intents as the app has them. */
export function helpText(): string {
  const { lexicon } = packFor('en');
  const states = dialogueStates.map((state) => {
    const intents = legalIn[state].map((intent) => {
      const words = taughtForm(lexicon, intent, state);
      return `${intent} ("${words}")`;
    });
    return wrapped(`  ${state.padEnd(12)}`, intents);
  });
  return `Measures the app's own ear on spoken commands, talk and its own prompts.

  npm run bench:voice -- [--quick] [--json] [--ear NAME] [--only PART,...] [--voices NAME,...] [--each N] [--hours H] [--name-first]
  npm run bench:voice -- --clips DIR [--json] [--ear NAME] [--name-first] [--unit mm] [--names "ada lund,kim ferrow"]

Without --clips it speaks its own clips with flite, espeak-ng and festival as far as they are installed (kept in .cache/voice) and prints,
for each voice and noise, how much was right, wrong and rejected; false alarms an hour on talk and on the app's own prompts; how it fares
with its own voice in the microphone; numbers read back; endpointers compared; noise suppression compared in Chromium's microphone; how soon
the built app answers in Chromium. It takes some hours of a core; --quick keeps a small sample.

With --clips it hears each clip of a folder in its state. DIR/clips.tsv holds a line for each clip:
  file<TAB>state<TAB>expected intent or none
Files are WAV files of any rate, beside the list; mono or stereo; 8, 16, 24 or 32 bits. Empty lines and lines that begin with # are left out.
"right" is a command that was understood as expected, or nothing understood where none was; "wrong" is another; "rejected" is a command of
which nothing was made.

  --json         the figures and every clip as JSON on standard output
  --ear NAME     ${earNames.map((name) => `${name}: ${earDescriptions[name]}`).join('\n                 ')}
  --only PART    some of ${parts.join(', ')}
  --voices NAME  some of ${benchVoices.map(({ name }) => name).join(', ')}
  --each N       clips of each voice in each noise at each level; fewer make it quicker, and thin out the other parts as well
  --hours H      of talk, with open listening and again with the name first
  --name-first   the name ("undertray") must come before a command
  --unit UNIT    the unit of the value that is measured in the state measuring; mm if not given
  --names LIST   who may sign in the state signing; "robin marsh,kim ferrow" if not given

States, and in each the intents that may be said, with the taught words:
${states.join('\n')}

An intent may stand with what sets it apart from others of its type; without, any of the type is right:
  done:2 (how many)   number:47.5 (the value)   reason:no-part (${reasons.join(', ')})
  skip:this or skip:step, also with a reason: skip:step:no-tool   sign:kim ferrow (who)
  unit:N·m (${torqueUnits.join(', ')}, or source)

Ends with 0 when it has measured, 1 when something broke, 2 when what it was given is not what it expects; then it says what and where.`;
}

function wrapped(start: string, words: readonly string[]): string {
  const lines = [start];
  words.forEach((word, index) => {
    const piece = `${word}${index < words.length - 1 ? ', ' : ''}`;
    const last = lines.at(-1) ?? '';
    if (last.length + piece.length > 140) lines.push(`${' '.repeat(start.length)}${piece}`);
    else lines[lines.length - 1] = last + piece;
  });
  return lines.map((line) => line.trimEnd()).join('\n');
}
