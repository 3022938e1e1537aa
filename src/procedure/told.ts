import type { Torque } from '../torque/quantities.ts';
import type { FastenerDrive } from '../torque/sockets.ts';
import type { ProblemCode } from './problem.ts';

/** What a finding says, as data. Words of one language are made of it at the end. */
export type Told =
  | { readonly code: ProblemCode; readonly found: string; readonly expected: string }
  | { readonly code: 'no-torque' | 'no-drive'; readonly fastener: string }
  | { readonly code: 'thread-unreadable'; readonly found: string; readonly expected: string }
  | {
      readonly code: 'torque-too-high' | 'torque-too-low';
      readonly torque: Torque;
      readonly thread: string;
      readonly strength: string;
      /** No class is given, and this is the one that it was judged by. */
      readonly assumed: boolean;
      /** Percent of the proof load, calculated. */
      readonly percent: number;
      /** Beyond the proof load even on rough threads. */
      readonly impossible: boolean;
      readonly plausible: { readonly low: Torque; readonly high: Torque };
    }
  | {
      readonly code: 'socket-misfit';
      readonly drive: FastenerDrive;
      readonly size: string;
      readonly thread: string;
      readonly usual: readonly string[];
    }
  | { readonly code: 'drive-overloaded'; readonly torque: Torque; readonly square: string }
  | { readonly code: 'tolerance-too-tight'; readonly fastener: string; readonly percent: number; readonly held: number }
  | { readonly code: 'no-passes'; readonly fastener: string; readonly count: number; readonly order: 'cross' | 'spiral' }
  | { readonly code: 'build-forgotten'; readonly builds: readonly string[] }
  | { readonly code: 'unreachable-side'; readonly side: string }
  | { readonly code: 'sounds-alike'; readonly number: string; readonly first: string; readonly sentence: string; readonly same: boolean }
  | { readonly code: 'too-long-to-hear'; readonly what: Prompt; readonly words: number; readonly allowed: number }
  | { readonly code: 'single-use-part-missing'; readonly fastener: string; readonly count: number }
  | { readonly code: 'too-few-parts'; readonly part: string; readonly count: number; readonly needed: number }
  | { readonly code: 'supply-unused'; readonly name: string; readonly id: string }
  | { readonly code: 'hold-without-way-out'; readonly ask: string }
  | { readonly code: 'measure-without-limits' | 'measure-without-way-out'; readonly name: string }
  | { readonly code: 'jack-without-support' };

/** A text that is read out. */
export type Prompt = 'caution' | 'check' | 'sentence' | 'why' | 'where' | 'question';

/** The words of one language for what the lint tells: what is wrong, and what to do about it. */
export type LintWords = (told: Told) => { readonly message: string; readonly advice: string };
