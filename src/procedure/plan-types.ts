import type { Degrees, Torque, TorqueBand, TorqueUnit } from '../torque/quantities.ts';
import type { WrenchReason, WrenchWarning } from '../torque/wrench.ts';

/**
 * A procedure made flat for one build, one person's units and one person's tools.
 * Everything the dialogue, the screens and the record need is here; nothing of it changes while a job runs.
 */
export interface Plan {
  readonly format: 1;
  readonly procedure: {
    readonly id: string;
    readonly title: string;
    readonly vehicle: string;
    readonly revision: number;
    readonly language: string;
    /** Where the values come from, in the author's words; read out in the briefing. */
    readonly source: string;
    readonly author: string;
  };
  readonly build: { readonly id: string; readonly name: string };
  /** The unit to speak torques in; null speaks each in its source's unit. */
  readonly spokenUnit: TorqueUnit | null;
  readonly befores: readonly PlannedBefore[];
  readonly cautions: readonly PlannedCaution[];
  readonly kit: readonly KitItem[];
  /** The main line in its written order, then the steps of each side procedure. `index` is the place in this list. */
  readonly steps: readonly PlannedStep[];
  readonly sides: readonly PlannedSide[];
  readonly followUps: readonly PlannedFollowUp[];
}

/** ANSI Z535.6 signal words. */
export type SignalWord = 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';

export interface PlannedBefore {
  readonly id: string;
  readonly kind: 'mark' | 'part' | 'support' | 'removed' | 'condition';
  /** A sentence that must be true, such as "The battery is disconnected." */
  readonly check: string;
}

export interface PlannedCaution {
  readonly id: string;
  readonly signal: SignalWord;
  readonly text: string;
}

export interface PlannedSide {
  readonly id: string;
  readonly title: string;
  readonly stepIds: readonly string[];
}

export interface PlannedStep {
  readonly id: string;
  readonly index: number;
  /** What a person calls it: "12", or "A3" for the third step of the first side procedure. */
  readonly number: string;
  /** For a step of a side procedure, that procedure's id and title, with the number 0. */
  readonly stage: { readonly id: string; readonly title: string; readonly number: number };
  /** The side procedure that it belongs to, or null on the main line. */
  readonly side: string | null;
  readonly say: string;
  readonly why: string | null;
  readonly where: string | null;
  readonly picture: string | null;
  readonly cautions: readonly PlannedCaution[];
  /** Worked in this order: groups, then measures, then holds, then a wait that blocks. */
  readonly groups: readonly PlannedGroup[];
  readonly measures: readonly PlannedMeasure[];
  readonly holds: readonly PlannedHold[];
  readonly stopSigns: readonly PlannedStopSign[];
  readonly wait: PlannedWait | null;
  /** Null when it must be done; otherwise why it may be left out. */
  readonly optional: string | null;
  /** What the second person does, or null. */
  readonly helper: string | null;
  /** A side procedure to run before this step's own work. */
  readonly see: string | null;
  /** Other tools for this step, beyond the fasteners' own. */
  readonly tools: readonly string[];
}

/** 'not given' where the procedure does not say: that must not be answered with a tool, nor with "by hand". */
export type DriveKind =
  'hex' | 'socket-head hex' | 'internal serration' | 'bihex' | 'square' | 'slotted' | 'cross-head' | 'hand' | 'not given';

export interface PlannedTool {
  readonly kind: DriveKind;
  /** "13" for 13 mm, "T50" for a serration, "3/4" for an inch size; null where the file gives none. */
  readonly size: string | null;
  readonly sizeUnit: 'mm' | 'in' | null;
  /** Square drive, such as "1/2"; null where the file gives none. */
  readonly square: string | null;
  readonly reach: readonly PlannedReach[];
}

export type PlannedReach =
  /** With an angle it leads the socket aside, and the wrench's setting needs correcting; straight ones change nothing. */
  | { readonly kind: 'extension'; readonly length: number | null; readonly angle?: Degrees | undefined }
  | { readonly kind: 'universal joint' }
  | { readonly kind: 'deep socket' }
  | { readonly kind: 'crowfoot'; readonly centre: number | null; readonly angle: Degrees | null }
  | { readonly kind: 'other'; readonly text: string };

export interface PlannedPosition {
  readonly name: string;
  /** Hour on the clock face seen by the person who tightens, 0.5 to 12 in half hours, or null. */
  readonly clock: number | null;
  /** Place in the picture, both from 0 to 1, y downward. */
  readonly x: number;
  readonly y: number;
}

export type OrderPattern = 'cross' | 'circular' | 'spiral' | 'draw-up' | 'listed';

export interface PlannedGroup {
  readonly id: string;
  readonly name: string;
  /** "M12x1.75", or null where the file gives none. */
  readonly thread: string | null;
  readonly propertyClass: string | null;
  readonly condition: string | null;
  readonly singleUse: boolean;
  readonly positions: readonly PlannedPosition[];
  readonly tool: PlannedTool;
  /** The final torque as the source gives it, or null where it gives none for this build. */
  readonly torque: Torque | null;
  readonly band: TorqueBand | null;
  readonly angle: Degrees | null;
  readonly pattern: OrderPattern;
  readonly passes: readonly PlannedPass[];
}

export interface PlannedPass {
  /** 'seat' by hand or to snug, 'draw' in small even turns, 'torque', 'angle', 'check' a last circular round. */
  readonly kind: 'seat' | 'draw' | 'torque' | 'angle' | 'check';
  readonly torque: Torque | null;
  readonly angle: Degrees | null;
  /** Percent of the final torque where the file gave the pass as a share. */
  readonly share: number | null;
  /** Indexes into `positions`, in the order to take them. */
  readonly order: readonly number[];
  readonly setting: WrenchAdvice | null;
}

/** Which of the person's own wrenches to use for a pass, and what to set it to. Null in a plan made without a crib. */
export type WrenchAdvice =
  | {
      readonly fits: true;
      readonly wrench: string;
      /** The wrench's id in the crib, by which its clicks are counted; plans of earlier versions have none. */
      readonly wrenchId?: string | undefined;
      readonly set: Torque;
      /** The uncorrected target when an adapter changes the setting. */
      readonly corrected: boolean;
      readonly warnings: readonly WrenchNote[];
    }
  | { readonly fits: false; readonly reasons: readonly WrenchMisfit[] };

/** What to mind with a wrench. A plain text is an English sentence of a plan that an earlier version made. */
export type WrenchNote = WrenchWarning | { readonly code: 'keep-square' } | string;

/** Why a wrench will not do; a plain text as above. */
export type WrenchMisfit = WrenchReason | { readonly code: 'crowfoot-unknown' } | string;

/** Where a check that fails, a measure outside its limits or a stop sign leads. */
export type Branch =
  | { readonly kind: 'go'; readonly step: string; readonly advice: string | null }
  | { readonly kind: 'see'; readonly side: string; readonly advice: string | null }
  /** Stay here with the advice: do it again, or stop and ask. */
  | { readonly kind: 'stay'; readonly advice: string };

export interface PlannedMeasure {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly min: number | null;
  readonly max: number | null;
  readonly outside: Branch;
}

export interface PlannedHold {
  readonly id: string;
  /** A yes/no question; "yes" passes. */
  readonly ask: string;
  readonly fail: Branch;
}

export interface PlannedStopSign {
  readonly id: string;
  /** What the hand would feel, as a question: "Does it bind before it is flush?" */
  readonly ask: string;
  readonly branch: Branch;
}

export interface PlannedWait {
  readonly id: string;
  readonly name: string;
  readonly seconds: number;
  /** True when the next step may not begin before it is over. */
  readonly blocks: boolean;
}

export interface PlannedFollowUp {
  readonly id: string;
  readonly say: string;
  readonly after:
    | { readonly kind: 'distance'; readonly value: number; readonly unit: 'km' | 'mi' }
    | { readonly kind: 'time'; readonly hours: number }
    | { readonly kind: 'count'; readonly count: number; readonly of: string };
}

export type KitKind =
  'socket' | 'bit' | 'drive' | 'extension' | 'joint' | 'adapter' | 'wrench' | 'angle gauge' | 'part' | 'consumable' | 'support' | 'tool';

export interface KitItem {
  readonly id: string;
  readonly kind: KitKind;
  readonly name: string;
  readonly count: number;
  /** Ids of the steps that need it, in order. */
  readonly steps: readonly string[];
  readonly singleUse: boolean;
  /** In the person's crib; null when the plan was made without one, and for what a crib does not hold, such as parts. */
  readonly owned: boolean | null;
  /** What in the crib would serve instead. */
  readonly instead: string | null;
}
