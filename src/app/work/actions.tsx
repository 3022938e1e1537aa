import { useState } from 'react';
import { useMedia } from '../platform/media.ts';
import { fastenerAtHand, stepAtHand } from '../../job/dialogue.ts';
import type { DialogueState, Intent, IntentName } from '../../phrasing/intents.ts';
import { reasons } from '../../phrasing/intents.ts';
import type { LanguagePack } from '../../phrasing/language.ts';
import { torqueUnits } from '../../torque/quantities.ts';
import { useWords } from '../words/words.ts';
import type { RunnerView } from './runner.ts';

interface ActionsProps {
  readonly view: RunnerView;
  readonly pack: LanguagePack;
  readonly people: readonly string[];
  readonly send: (intent: Intent) => void;
}

/** What a thumb reaches first in each state; everything else that is legal is behind it, in the table's order. */
const firstIn: Readonly<Record<DialogueState, readonly IntentName[]>> = {
  briefing: ['done', 'yes', 'no'],
  kit: ['done', 'missing'],
  stating: ['done', 'repeat', 'stop'],
  visiting: ['carry-on', 'back', 'do-it-now'],
  fastening: ['done', 'torque', 'stop'],
  checking: ['yes', 'no', 'stop'],
  measuring: ['stop', 'repeat'],
  waiting: ['time-left', 'done', 'stop'],
  confirming: ['yes', 'no'],
  reasoning: ['no'],
  diagnosing: ['yes', 'no', 'carry-on'],
  paused: ['carry-on'],
  closing: ['do-it-now', 'accept', 'leave-open'],
  signing: ['yes', 'leave-open'],
  closed: ['repeat'],
};

/** A button for each thing that may be said now. */
export function Actions({ view, pack, people, send }: ActionsProps) {
  const text = useWords();
  const wide = useMedia(wideQuery);
  const [opened, setOpened] = useState(false);
  // Where there is room for every button, none hides behind another.
  const open = opened || wide;
  const [picking, setPicking] = useState<'unit' | 'count' | null>(null);
  const { legal, state } = view;
  const legalFirst = firstIn[state].filter((name) => legal.includes(name));
  // "Yes" and "done" mean the same in the briefing and at the kit: one button for both.
  const first =
    legalFirst.includes('done') && state !== 'waiting' ? legalFirst.filter((name) => name !== 'yes' || state === 'stating') : legalFirst;
  const rest = legal.filter((name) => !first.includes(name) && !formIntents.includes(name) && !(name === 'yes' && first.includes('done')));
  const place = fastenerAtHand(view.dialogue.plan, view.dialogue.job);
  const label = (name: IntentName) => pack.lexicon.commands[name].button;
  const give = (intent: Intent) => {
    setPicking(null);
    send(intent);
  };
  const press = (name: IntentName) => {
    if (name === 'unit') setPicking('unit');
    else give(plainIntent(name));
  };
  return (
    <div className="actions no-print">
      {legal.includes('number') ? <Keypad give={(value) => give({ type: 'number', value, unit: null })} /> : null}
      {legal.includes('reason') ? (
        <Choices
          choices={reasons.map((reason) => [pack.lexicon.reasons[reason].button, () => give({ type: 'reason', reason, text: null })])}
        />
      ) : null}
      {legal.includes('sign') ? <SignForm people={people} give={(name) => give({ type: 'sign', name })} /> : null}
      {picking === 'unit' ? (
        <Choices
          choices={[
            ...torqueUnits.map((unit): [string, () => void] => [unit, () => give({ type: 'unit', unit })]),
            [pack.lexicon.units.source.button, () => give({ type: 'unit', unit: null })],
          ]}
        />
      ) : null}
      {picking === 'count' && place !== null ? (
        <Choices
          choices={Array.from({ length: Math.min(place.left, pack.lexicon.counts.most) }, (_, index) => [
            pack.lexicon.counts.taught(index + 1),
            () => give({ type: 'done', count: index + 1 }),
          ])}
        />
      ) : null}
      <div className="actions-main">
        {first.map((name, index) => (
          <button
            key={name}
            type="button"
            data-intent={name}
            className={index === 0 && name !== 'stop' ? 'primary' : name === 'stop' ? 'halt' : ''}
            onClick={() => press(name)}
          >
            {label(name)}
          </button>
        ))}
      </div>
      {wide ? null : (
        <button type="button" aria-expanded={open} onClick={() => setOpened(!opened)}>
          {open ? text.work.less : text.work.more}
        </button>
      )}
      {open ? (
        <div className="actions-more">
          {state === 'fastening' && place !== null && place.left > 1 ? (
            <button type="button" onClick={() => setPicking('count')}>
              {text.work.count}
            </button>
          ) : null}
          {rest.map((name) => (
            <button
              key={name}
              type="button"
              data-intent={name}
              className={name === 'stop' ? 'halt' : ''}
              title={pack.lexicon.commands[name].help}
              onClick={() => press(name)}
            >
              {label(name)}
            </button>
          ))}
          {state === 'fastening' && stepAtHand(view.dialogue.plan, view.dialogue.job) !== null ? (
            <button type="button" data-intent="skip-step" onClick={() => give({ type: 'skip', scope: 'step', reason: null })}>
              {`${label('skip')} (${view.dialogue.plan.steps[view.dialogue.job.work.cursor?.step ?? 0]?.number ?? ''})`}
            </button>
          ) : null}
        </div>
      ) : null}
    </div>
  );
}

const wideQuery = '(min-width: 900px) and (min-height: 600px)';

/** These have forms of their own above the buttons. */
const formIntents: readonly IntentName[] = ['number', 'reason', 'sign'];

function plainIntent(name: IntentName): Intent {
  switch (name) {
    case 'done':
      return { type: name, count: 1 };
    case 'skip':
      return { type: name, scope: 'this', reason: null };
    case 'note':
      return { type: name, text: null };
    case 'unit':
      return { type: name, unit: null };
    case 'yes':
      return { type: 'yes' };
    case 'no':
      return { type: 'no' };
    case 'number':
    case 'reason':
    case 'sign':
      throw new Error(`"${name}" needs more than a press`);
    default:
      return { type: name };
  }
}

/** The intent of a key or pedal; null for those that need a form. */
export const intentOfKey = (name: IntentName): Intent | null => (formIntents.includes(name) ? null : plainIntent(name));

function Choices({ choices }: { readonly choices: readonly (readonly [string, () => void])[] }) {
  return (
    <div className="actions-more">
      {choices.map(([label, give]) => (
        <button key={label} type="button" onClick={give}>
          {label}
        </button>
      ))}
    </div>
  );
}

/** Large keys for a knuckle; a keyboard's digits go to the same place. */
function Keypad({ give }: { readonly give: (value: number) => void }) {
  const text = useWords();
  const [entry, setEntry] = useState('');
  const value = Number(entry);
  const isNumber = /\d/u.test(entry) && Number.isFinite(value);
  const type = (key: string) =>
    setEntry((before) =>
      key === '-'
        ? before.startsWith('-')
          ? before.slice(1)
          : `-${before}`
        : key === '.' && before.includes('.')
          ? before
          : `${before}${key}`.slice(0, 12),
    );
  return (
    <div className="keypad">
      <output aria-label={text.work.enter}>{entry === '' ? ' ' : entry}</output>
      {['7', '8', '9', '.', '4', '5', '6', '0', '1', '2', '3', '-'].map((key) => (
        <button key={key} type="button" aria-label={key === '-' ? text.work.minus : key} onClick={() => type(key)}>
          {key}
        </button>
      ))}
      <button type="button" style={{ gridColumn: 'span 2' }} onClick={() => setEntry('')}>
        {text.work.clear}
      </button>
      <button
        type="button"
        className="primary"
        style={{ gridColumn: 'span 2' }}
        disabled={!isNumber}
        onClick={() => {
          give(value);
          setEntry('');
        }}
      >
        {text.work.ok}
      </button>
    </div>
  );
}

function SignForm({ people, give }: { readonly people: readonly string[]; readonly give: (name: string) => void }) {
  const text = useWords();
  const [name, setName] = useState(people[0] ?? '');
  return (
    <form
      className="stack"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== '') give(name.trim());
      }}
    >
      <label>
        {text.work.name}
        <input value={name} maxLength={60} autoComplete="name" onChange={(event) => setName(event.target.value)} />
      </label>
      <button type="submit" disabled={name.trim() === ''}>
        {text.work.sign}
      </button>
    </form>
  );
}
