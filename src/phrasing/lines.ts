import type {
  Branch,
  KitItem,
  PlannedBefore,
  PlannedCaution,
  PlannedFollowUp,
  PlannedGroup,
  PlannedHold,
  PlannedMeasure,
  PlannedSide,
  PlannedStep,
  PlannedStopSign,
} from '../procedure/plan-types.ts';
import type { WrenchRemark } from '../procedure/wrench-remarks.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import type { IntentName, Reason } from './intents.ts';

/** One fastener in its pass: the place in the group's positions and in its passes. */
export interface FastenerPlace {
  readonly group: PlannedGroup;
  /** Index into `group.passes`. */
  readonly pass: number;
  /** Index into `group.positions`. */
  readonly position: number;
  /** How many are left in this pass, this one included. */
  readonly left: number;
}

/** Something open at close-out that wants an answer. The id changes when the matter itself changes. */
export type Matter =
  | {
      readonly id: string;
      readonly kind: 'fasteners';
      readonly step: PlannedStep;
      readonly group: PlannedGroup;
      readonly untouched: number;
      readonly unfinished: number;
      readonly reason: Reason | null;
      /** The person's own words for the reason, or null. */
      readonly said: string | null;
    }
  | {
      readonly id: string;
      readonly kind: 'step';
      readonly step: PlannedStep;
      readonly how: 'open' | 'skipped' | 'passed-over';
      readonly reason: Reason | null;
      readonly said: string | null;
    }
  | {
      readonly id: string;
      readonly kind: 'hold';
      readonly step: PlannedStep;
      readonly hold: PlannedHold;
      readonly how: 'never passed' | 'passed late';
      readonly failures: number;
    }
  | {
      readonly id: string;
      readonly kind: 'measure';
      readonly step: PlannedStep;
      readonly measure: PlannedMeasure;
      readonly value: number | null;
    }
  | { readonly id: string; readonly kind: 'timer'; readonly name: string; readonly seconds: number }
  | { readonly id: string; readonly kind: 'note'; readonly step: PlannedStep | null; readonly text: string }
  | { readonly id: string; readonly kind: 'before'; readonly before: PlannedBefore }
  | { readonly id: string; readonly kind: 'kit'; readonly item: KitItem };

/** What can go wrong around the job; each has a spoken and a shown answer. */
export const failureCodes = [
  'not-stored-disk-full',
  'not-stored-blocked',
  'not-stored-newer-version',
  'not-stored-other-tab',
  'not-stored-refused',
  'storage-evicted',
  'record-corrupt',
  'no-microphone',
  'microphone-denied',
  'no-recogniser',
  'no-voice',
  'network-lost',
  'switched-to-local-ear',
  'switched-to-local-voice',
  'too-loud',
  'battery-low',
  'clock-changed',
  'slept',
  'no-camera',
  'camera-denied',
  'no-dictation',
  'note-empty',
  'note-too-large',
  'notes-full',
  'note-disk-full',
  'storage-low',
] as const;
export type FailureCode = (typeof failureCodes)[number];

/**
 * Everything that the tool can say, as data. `phrasing/` turns a line into words of one language;
 * nothing above it writes sentences. Questions end with what may be answered.
 */
export type Line =
  // Before starting
  | { readonly kind: 'welcome'; readonly title: string; readonly build: string; readonly source: string; readonly steps: number }
  | { readonly kind: 'welcome-back'; readonly title: string }
  | { readonly kind: 'caution'; readonly caution: PlannedCaution; readonly acknowledge: boolean }
  | { readonly kind: 'before'; readonly before: PlannedBefore; readonly number: number; readonly of: number }
  | { readonly kind: 'before-not-true'; readonly before: PlannedBefore }
  /** What to know about the person's wrenches before the job starts; never empty. */
  | { readonly kind: 'wrench-remarks'; readonly remarks: readonly WrenchRemark[] }
  | { readonly kind: 'kit-begins'; readonly items: number }
  | { readonly kind: 'kit-item'; readonly item: KitItem; readonly number: number; readonly of: number }
  | { readonly kind: 'kit-missing'; readonly item: KitItem }
  | { readonly kind: 'confirm-kit-waved'; readonly left: number }
  | { readonly kind: 'confirm-leave-before'; readonly before: PlannedBefore; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'kit-done'; readonly missing: number }
  // Steps
  | { readonly kind: 'step'; readonly step: PlannedStep; readonly mainSteps: number }
  | { readonly kind: 'step-done'; readonly step: PlannedStep }
  | { readonly kind: 'side-begins'; readonly side: PlannedSide }
  | { readonly kind: 'side-ends'; readonly side: PlannedSide; readonly back: PlannedStep }
  | { readonly kind: 'visiting'; readonly step: PlannedStep }
  | { readonly kind: 'visit-over'; readonly step: PlannedStep }
  | { readonly kind: 'at-the-start' }
  // Fasteners
  /** A group begins: how many, the tool, the torque of the pass, and the first position. */
  | { readonly kind: 'group'; readonly place: FastenerPlace; readonly unit: TorqueUnit | null }
  /** A later pass of a group begins. */
  | { readonly kind: 'pass'; readonly place: FastenerPlace; readonly unit: TorqueUnit | null }
  /** The next fastener of the pass under way. */
  | { readonly kind: 'next-fastener'; readonly place: FastenerPlace }
  | { readonly kind: 'too-many'; readonly said: number; readonly left: number }
  // Answers
  /** `place` null: the step's groups are answered for one after the other. */
  | { readonly kind: 'torque'; readonly group: PlannedGroup; readonly pass: number | null; readonly unit: TorqueUnit | null }
  | { readonly kind: 'socket'; readonly group: PlannedGroup }
  | { readonly kind: 'how-many'; readonly group: PlannedGroup }
  | { readonly kind: 'how-many-left'; readonly place: FastenerPlace }
  | { readonly kind: 'which-next'; readonly place: FastenerPlace }
  | { readonly kind: 'where'; readonly step: PlannedStep; readonly place: FastenerPlace | null }
  | { readonly kind: 'why'; readonly step: PlannedStep }
  | { readonly kind: 'tools'; readonly step: PlannedStep }
  | { readonly kind: 'which-step'; readonly step: PlannedStep; readonly mainSteps: number; readonly stepsLeft: number }
  | { readonly kind: 'no-cautions' }
  | { readonly kind: 'no-fasteners-here' }
  | { readonly kind: 'time-left'; readonly timers: readonly { readonly name: string; readonly seconds: number }[] }
  | { readonly kind: 'no-timer-here' }
  // Hold points and measures
  | { readonly kind: 'hold'; readonly hold: PlannedHold }
  | { readonly kind: 'hold-passed' }
  | { readonly kind: 'hold-failed'; readonly hold: PlannedHold }
  | { readonly kind: 'measure'; readonly measure: PlannedMeasure }
  | { readonly kind: 'measure-read-back'; readonly measure: PlannedMeasure; readonly value: number; readonly saidUnit: string | null }
  | { readonly kind: 'measure-wrong-unit'; readonly measure: PlannedMeasure; readonly saidUnit: string }
  | { readonly kind: 'measure-within'; readonly measure: PlannedMeasure; readonly value: number }
  | { readonly kind: 'measure-outside'; readonly measure: PlannedMeasure; readonly value: number }
  | { readonly kind: 'branch'; readonly branch: Branch; readonly target: PlannedStep | null; readonly reopened: number }
  // Stop
  | { readonly kind: 'stopped' }
  | { readonly kind: 'stop-sign'; readonly sign: PlannedStopSign }
  | { readonly kind: 'no-more-stop-signs' }
  // Waits
  | { readonly kind: 'wait-started'; readonly name: string; readonly seconds: number; readonly blocks: boolean }
  | { readonly kind: 'wait-over'; readonly name: string }
  | { readonly kind: 'wait-running'; readonly name: string; readonly seconds: number }
  // Confirmations and corrections
  | { readonly kind: 'confirm-skip-step'; readonly step: PlannedStep; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'confirm-skip-fastener'; readonly place: FastenerPlace; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'confirm-finish'; readonly openSteps: number }
  | { readonly kind: 'confirm-reopen'; readonly step: PlannedStep }
  | { readonly kind: 'confirm-cut-wait'; readonly name: string; readonly seconds: number }
  | { readonly kind: 'confirm-sign'; readonly name: string }
  | { readonly kind: 'reason-asked' }
  | { readonly kind: 'skipped-step'; readonly step: PlannedStep }
  | { readonly kind: 'skipped-fastener' }
  | { readonly kind: 'dropped' }
  /** Undo: what was taken back, in terms of where the person is now. */
  | { readonly kind: 'undone'; readonly what: UndoneThing }
  | { readonly kind: 'nothing-to-undo' }
  | { readonly kind: 'paused' }
  | { readonly kind: 'resumed' }
  | { readonly kind: 'note-asked' }
  | { readonly kind: 'photo-asked' }
  /** `media` says what was recorded; the text is empty where there are no words. */
  | { readonly kind: 'noted'; readonly text: string; readonly media: 'audio' | 'photo' | null }
  | { readonly kind: 'unit-chosen'; readonly unit: TorqueUnit | null }
  | { readonly kind: 'help'; readonly legal: readonly IntentName[] }
  | { readonly kind: 'not-understood'; readonly legal: readonly IntentName[]; readonly times: number }
  | { readonly kind: 'not-now'; readonly intent: IntentName; readonly legal: readonly IntentName[] }
  | { readonly kind: 'louder' }
  | { readonly kind: 'quieter' }
  | { readonly kind: 'slower' }
  | { readonly kind: 'faster' }
  // Close-out
  /** How many matters of each kind are open, in the order of the first of each; each is then read out by itself. */
  | { readonly kind: 'closing-begins'; readonly open: readonly { readonly kind: Matter['kind']; readonly count: number }[] }
  | { readonly kind: 'matter'; readonly matter: Matter; readonly number: number; readonly of: number }
  | { readonly kind: 'matter-accepted' }
  | { readonly kind: 'left-open' }
  | { readonly kind: 'hand-over-begins' }
  /** It was given to another device, or has come from one. */
  | { readonly kind: 'handed-over' }
  | { readonly kind: 'sign-asked'; readonly name: string | null }
  | { readonly kind: 'signed'; readonly name: string; readonly exceptions: number }
  | { readonly kind: 'follow-up'; readonly followUp: PlannedFollowUp }
  | { readonly kind: 'confirm-follow-up'; readonly followUp: PlannedFollowUp }
  | { readonly kind: 'follow-up-logged'; readonly left: number }
  | { readonly kind: 'closed' }
  | { readonly kind: 'failure'; readonly code: FailureCode };

export type LineKind = Line['kind'];

export type UndoneThing =
  | 'fastener'
  | 'step'
  | 'measure'
  | 'hold'
  | 'skip'
  | 'caution'
  | 'before'
  | 'kit'
  | 'note'
  | 'timer'
  | 'back'
  | 'reopen'
  | 'finish'
  | 'accept'
  | 'stop-sign';

/** A line in words: what the voice says and what the caption shows. They carry the same facts. */
export interface Spoken {
  readonly say: string;
  readonly show: string;
}
