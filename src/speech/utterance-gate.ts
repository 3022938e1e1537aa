import type { EarKind } from './ear/ear.ts';
import type { EchoGuard, EchoVerdict } from './echo-guard.ts';
import type { HeardAlternative, RejectionReason } from './hearing/port.ts';
import { afterName } from './name-first.ts';

/** Why an utterance was dropped. All but the ear's own reasons call for no answer. */
export type DropReason = RejectionReason | Exclude<EchoVerdict, 'pass'> | 'late';

export type GateVerdict =
  | { readonly kind: 'pass'; readonly alternatives: readonly HeardAlternative[] }
  | { readonly kind: 'drop'; readonly why: DropReason }
  /** Nothing but the name: a command may follow. */
  | { readonly kind: 'name-only' };

export interface Utterance {
  readonly alternatives: readonly HeardAlternative[];
  /** Milliseconds on the page's clock. */
  readonly from: number;
  readonly to: number;
  readonly ear: EarKind;
}

/** What the gate goes by at the moment. */
export interface GateRules {
  /** When the present listening turn began. */
  readonly turnBegan: number;
  readonly nameFirst: boolean;
  /** What the tool is called by, lower case. */
  readonly names: readonly string[];
  readonly isInterrupting: (text: string) => boolean;
}

/** An utterance that began so little before its turn, in milliseconds, is taken to belong to it. */
const turnSlack = 300;
/** After the name alone a command may follow for so many milliseconds. */
const afterNameFor = 4_000;

/** Lets through what the person said to the app now, and neither its own voice nor what belongs to an earlier turn. */
export interface UtteranceGate {
  /** Whether a text can have come from somebody else than the app. */
  judgeText(text: string, from: number, to: number, rules: GateRules): EchoVerdict;
  judge(utterance: Utterance, rules: GateRules): GateVerdict;
}

export function createUtteranceGate(guard: EchoGuard): UtteranceGate {
  let namedAt = -Infinity;

  function judgeText(text: string, from: number, to: number, { isInterrupting }: GateRules, fit: number | null = null): EchoVerdict {
    return guard.judge({ text, from, to, interrupts: isInterrupting(text), fit });
  }

  /** The local recogniser deals with the name itself; a browser's gives it as part of the text. */
  function withoutName({ alternatives, ear, from, to }: Utterance, rules: GateRules): readonly HeardAlternative[] | 'name-only' {
    if (ear === 'local') return alternatives;
    const read = alternatives.map(({ text, confidence }) => ({ text, confidence, rest: afterName(text, rules.names) }));
    if (read[0]?.rest === '') {
      namedAt = to;
      return 'name-only';
    }
    const needsName = rules.nameFirst && from - namedAt > afterNameFor;
    namedAt = -Infinity;
    return read
      .filter(({ text, rest }) => !needsName || (rest ?? '') !== '' || rules.isInterrupting(text))
      .map(({ text, rest, confidence }) => ({ text: rest ?? text, confidence }));
  }

  return {
    judgeText,
    judge(utterance, rules) {
      const { alternatives, from, to, ear } = utterance;
      const best = alternatives[0]?.text ?? '';
      if (from < rules.turnBegan - turnSlack && !rules.isInterrupting(best)) return { kind: 'drop', why: 'late' };
      const bare = withoutName(utterance, rules);
      if (bare === 'name-only') return { kind: 'name-only' };
      if (bare.length === 0) return { kind: 'drop', why: 'no-name' };
      const judged = bare.map((alternative) => {
        const fit = ear === 'local' ? alternative.confidence : null;
        return { alternative, verdict: judgeText(alternative.text, from, to, rules, fit) };
      });
      // What is most likely the app's own voice is not somebody else's by a lesser guess at the same sound.
      if (judged[0]?.verdict === 'own-words') return { kind: 'drop', why: 'own-words' };
      // While the app speaks a lesser guess may be the one that interrupts, and "stop" must get through.
      const passing = judged.filter(({ verdict }) => verdict === 'pass').map(({ alternative }) => alternative);
      if (passing.length > 0) return { kind: 'pass', alternatives: passing };
      const verdict = judged[0]?.verdict ?? 'pass';
      return { kind: 'drop', why: verdict === 'pass' ? 'unclear' : verdict };
    },
  };
}
