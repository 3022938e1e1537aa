import type { Enrolment, EnrolmentFault, EnrolmentListener } from '../../speech/enrolment/browser-enrolment.ts';
import type { FromEnrolment } from '../../speech/enrolment/messages.ts';
import type { Take } from '../../speech/hearing/own-voice.ts';
import type { AskedCommand } from './commands.ts';

export type RunState =
  | { readonly at: 'loading'; readonly share: number }
  | {
      readonly at: 'asking';
      readonly round: 1 | 2;
      readonly index: number;
      readonly listening: boolean;
      /** Why it is asked once more. */
      readonly again: 'unlike' | 'silent' | null;
    }
  | { readonly at: 'learning' }
  | { readonly at: 'learnt'; readonly learnt: Extract<FromEnrolment, { kind: 'learnt' }>; readonly commands: readonly AskedCommand[] }
  | { readonly at: 'too-few' }
  | { readonly at: 'failed'; readonly fault: EnrolmentFault };

/** What is said at a turn; the page has the words. */
export type Saying =
  { readonly kind: 'ask' | 'unlike' | 'silent'; readonly text: string } | { readonly kind: 'skipped' | 'second-round' | 'learning' };

export interface RunDeps {
  readonly commands: readonly AskedCommand[];
  readonly begin: (listener: EnrolmentListener) => Enrolment;
  /** Says all of it and resolves when the loudspeaker is still again, at once where there is no voice. */
  readonly say: (sayings: readonly Saying[]) => Promise<void>;
  /** A take was heard: for the ear and the hand. */
  readonly heard: () => void;
  readonly trialOf: (command: AskedCommand, sound: Float32Array) => Parameters<Enrolment['learn']>[1][number];
  readonly after: (milliseconds: number, act: () => void) => () => void;
  readonly onState: (state: RunState) => void;
}

/** How long a person may take to begin, in milliseconds, and how often a command is asked for. */
const patience = 8_000;
const asks = 3;
/** Fewer takes than this teach nothing that can be told from chance. */
const fewest = 8;

/** Twelve commands, twice: from the first round it learns, on the second it is tried. */
export class EnrolmentRun {
  private readonly deps: RunDeps;
  private readonly enrolment: Enrolment;
  private readonly rounds: [(Take | null)[], (Take | null)[]] = [[], []];
  private state: RunState = { at: 'loading', share: 0 };
  private asked = 0;
  /** Goes up with every turn, so that what belongs to an earlier one comes to nothing. */
  private turn = 0;
  private cancel: () => void = () => undefined;

  constructor(deps: RunDeps) {
    this.deps = deps;
    this.enrolment = deps.begin({
      progress: (share) => this.show({ at: 'loading', share }),
      ready: () => void this.ask(1, 0, []),
      found: (found) => this.found(found),
      learnt: (learnt) => this.learnt(learnt),
      failed: (fault) => {
        this.leaveTurn();
        this.show({ at: 'failed', fault });
      },
    });
  }

  /** The command asked for now is left out of the round. */
  skip(): void {
    if (this.state.at === 'asking') void this.next(null, [{ kind: 'skipped' }]);
  }

  end(): void {
    this.leaveTurn();
    this.enrolment.end();
  }

  private show(state: RunState): void {
    this.state = state;
    this.deps.onState(state);
  }

  private leaveTurn(): void {
    this.turn += 1;
    this.cancel();
  }

  private async ask(round: 1 | 2, index: number, before: readonly Saying[], again: 'unlike' | 'silent' | null = null): Promise<void> {
    this.leaveTurn();
    const { turn } = this;
    const text = this.deps.commands[index]?.text ?? '';
    this.asked = again === null ? 1 : this.asked + 1;
    this.enrolment.rest();
    this.show({ at: 'asking', round, index, listening: false, again });
    await this.deps.say([...before, { kind: again ?? 'ask', text }]);
    if (turn !== this.turn) return;
    this.enrolment.ask(text);
    this.show({ at: 'asking', round, index, listening: true, again });
    this.cancel = this.deps.after(patience, () => this.askAgain('silent'));
  }

  private askAgain(why: 'unlike' | 'silent'): void {
    if (this.state.at !== 'asking') return;
    const { round, index } = this.state;
    if (this.asked >= asks) void this.next(null, [{ kind: 'skipped' }]);
    else void this.ask(round, index, [], why);
  }

  private found(found: Extract<FromEnrolment, { kind: 'take' | 'unlike' }>): void {
    if (this.state.at !== 'asking' || !this.state.listening) return;
    if (found.kind === 'unlike') {
      this.askAgain('unlike');
      return;
    }
    this.deps.heard();
    void this.next({ text: found.text, sound: found.sound }, []);
  }

  private async next(take: Take | null, before: readonly Saying[]): Promise<void> {
    if (this.state.at !== 'asking') return;
    const { round, index } = this.state;
    this.rounds[round - 1]?.push(take);
    if (index + 1 < this.deps.commands.length) return this.ask(round, index + 1, before);
    if (round === 1) return this.ask(2, 0, [...before, { kind: 'second-round' }]);
    return this.learn();
  }

  private async learn(): Promise<void> {
    this.leaveTurn();
    const { turn } = this;
    const [first, second] = this.rounds;
    const takes = first.filter((take) => take !== null);
    const tried = this.tried();
    if (takes.length < fewest || tried.length < fewest) {
      this.enrolment.end();
      this.show({ at: 'too-few' });
      return;
    }
    this.show({ at: 'learning' });
    await this.deps.say([{ kind: 'learning' }]);
    if (turn !== this.turn) return;
    this.enrolment.learn(
      takes,
      tried.map(({ command, index }) => this.deps.trialOf(command, second[index]?.sound ?? new Float32Array(0))),
    );
  }

  private tried(): { readonly command: AskedCommand; readonly index: number }[] {
    return this.deps.commands.flatMap((command, index) => (this.rounds[1][index] == null ? [] : [{ command, index }]));
  }

  private learnt(learnt: Extract<FromEnrolment, { kind: 'learnt' }>): void {
    this.enrolment.end();
    this.show({ at: 'learnt', learnt, commands: this.tried().map(({ command }) => command) });
  }
}
