import { useState } from 'react';
import { plausibleTorque } from '../../torque/plausibility.ts';
import type { SurfaceCondition } from '../../torque/preload.ts';
import {
  advanceOfTurn,
  assemblyPreload,
  effectOfCondition,
  nutFactors,
  preloadByNutFactor,
  preloadFromTorque,
  proofLoadShare,
  surfaceConditions,
  torqueByNutFactor,
  torqueForPreload,
} from '../../torque/preload.ts';
import type { Degrees, Torque } from '../../torque/quantities.ts';
import type { PropertyClass } from '../../torque/strength.ts';
import { parsePropertyClass, proofLoad, propertyClassNames } from '../../torque/strength.ts';
import type { Thread } from '../../torque/threads.ts';
import { parseThread, stressArea } from '../../torque/threads.ts';
import { parseTorque, toNewtonMetres } from '../../torque/units.ts';
import { useSettings } from '../settings-context.ts';
import { ChoiceField, Figures, Part, TextField } from './fields.tsx';
import { figure, kilonewtons, numberBetween } from './figures.ts';
import { useCalculatorWords } from './words/words.ts';

/** What a thread of a class can bear, what a torque makes of it, and what the surface changes. */
export function ThreadPart() {
  const words = useCalculatorWords();
  const text = words.thread;
  const { language } = useSettings().settings;
  const [threadTyped, setThread] = useState('M10x1.25');
  const [strengthName, setStrength] = useState('10.9');
  const [frictionTyped, setFriction] = useState('0.12');
  const [torqueTyped, setTorque] = useState('');
  const [meant, setMeant] = useState<SurfaceCondition>('black');
  const [is, setIs] = useState<SurfaceCondition>('lubricated');
  const [turnTyped, setTurn] = useState('90');
  const thread = parseThread(threadTyped);
  const classes = thread.ok ? classesOf(thread.value) : [];
  const strength = classes.find(({ name }) => name === strengthName) ?? classes[0] ?? null;
  const friction = numberBetween(frictionTyped, 0.02, 0.5);
  const judged = torqueTyped.trim() === '' ? null : parseTorque(torqueTyped);
  const turn = numberBetween(turnTyped, 0.1, 720);
  const effect = effectOfCondition(meant, is);
  const conditions = surfaceConditions.map((condition) => [condition, text.conditions[condition]] as const);
  return (
    <Part
      id="thread"
      title={text.title}
      asked={
        <>
          <TextField label={text.thread} value={threadTyped} onChange={setThread} expected={thread.ok ? null : words.expected.thread} />
          <ChoiceField
            label={text.strength}
            value={strength?.name ?? ''}
            of={classes.map(({ name }) => [name, name] as const)}
            onChange={setStrength}
          />
          <TextField
            numeric
            label={text.friction}
            value={frictionTyped}
            onChange={setFriction}
            expected={friction === null ? words.expected.friction : null}
          />
          <TextField
            label={text.torque}
            value={torqueTyped}
            onChange={setTorque}
            expected={judged?.ok === false ? words.expected.torque : null}
          />
          <ChoiceField label={text.meant} value={meant} of={conditions} onChange={setMeant} />
          <ChoiceField label={text.is} value={is} of={conditions} onChange={setIs} />
          <TextField numeric label={text.turn} value={turnTyped} onChange={setTurn} expected={turn === null ? words.expected.turn : null} />
        </>
      }
    >
      {thread.ok && strength !== null && friction !== null ? (
        <ThreadFigures
          thread={thread.value}
          strength={strength}
          friction={friction}
          surface={is}
          torque={judged?.ok ? judged.value : null}
        />
      ) : null}
      <Figures
        rows={[
          [text.oil, text.oilText(figure(effect.preload, language, 3), figure(effect.torque, language, 3))],
          thread.ok && turn !== null ? [text.advance, `${figure(advanceOfTurn(thread.value, turn as Degrees), language, 3)} mm`] : null,
        ]}
      />
    </Part>
  );
}

function ThreadFigures({
  thread,
  strength,
  friction,
  surface,
  torque,
}: {
  readonly thread: Thread;
  readonly strength: PropertyClass;
  readonly friction: number;
  readonly surface: SurfaceCondition;
  readonly torque: Torque | null;
}) {
  const text = useCalculatorWords().thread;
  const { language } = useSettings().settings;
  const both = { thread: friction, head: friction };
  const preload = assemblyPreload(thread, strength.yieldStress, both);
  const factor = nutFactors[surface];
  const applied = torque === null ? null : toNewtonMetres(torque);
  const made = applied === null ? null : preloadFromTorque(thread, applied, both);
  const judged = torque === null ? null : plausibleTorque(thread, strength.name, torque);
  return (
    <>
      <Figures
        rows={[
          [text.area, `${figure(stressArea(thread), language)} mm²`],
          [text.proof, kilonewtons(proofLoad(thread, strength), language)],
          [text.assembly, kilonewtons(preload, language)],
          [text.assemblyTorque, `${figure(torqueForPreload(thread, preload, both), language)} N·m`],
          [text.byFactor(figure(factor, language)), `${figure(torqueByNutFactor(factor, preload, thread.diameter), language)} N·m`],
          made === null ? null : [text.preload, kilonewtons(made, language)],
          made === null ? null : [text.share, `${figure(proofLoadShare(thread, strength, made) * 100, language, 3)} %`],
          applied === null
            ? null
            : [text.preloadByFactor(figure(factor, language)), kilonewtons(preloadByNutFactor(factor, applied, thread.diameter), language)],
          judged === null ? null : [text.verdict, text.verdicts[judged.verdict]],
          judged === null
            ? null
            : [text.plausible, `${figure(judged.range.low, language, 2)} – ${figure(judged.range.high, language, 3)} N·m`],
        ]}
      />
    </>
  );
}

function classesOf(thread: Thread): readonly PropertyClass[] {
  const isInch = (name: string) => name.startsWith('grade');
  return propertyClassNames
    .filter((name) => isInch(name) === (thread.system === 'inch'))
    .flatMap((name) => {
      const read = parsePropertyClass(name, thread);
      return read.ok ? [read.value] : [];
    });
}
