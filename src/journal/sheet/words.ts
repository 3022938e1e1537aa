import type { Reason } from '../../phrasing/intents.ts';
import type { Language } from '../../phrasing/language.ts';
import type { Matter } from '../../phrasing/lines.ts';
import type { PlannedFollowUp, PlannedGroup, PlannedPass, PlannedTool } from '../../procedure/plan-types.ts';
import { englishSheet } from './words-en.ts';
import { frenchSheet } from './words-fr.ts';

/** What the sheet says in one language, around the procedure's own words. */
export interface SheetWords {
  readonly title: string;
  readonly build: string;
  readonly workedBy: string;
  readonly begun: string;
  readonly procedure: string;
  readonly revision: string;
  readonly timeAtWork: string;
  readonly timeSpent: (work: string, paused: string) => string;
  readonly newest: string;
  readonly signed: string;
  readonly author: string;
  readonly notGiven: string;
  readonly jobAndSource: (job: string, source: string) => string;
  readonly states: Readonly<Record<'signed' | 'leftOpen' | 'handedOver' | 'open', readonly [state: string, meaning: string]>>;
  readonly damaged: (places: number) => string;
  readonly exceptions: string;
  readonly none: string;
  readonly what: string;
  readonly answer: string;
  readonly unanswered: string;
  readonly accepted: (reason: string) => string;
  readonly fasteners: string;
  readonly fastenerColumns: readonly [
    step: string,
    group: string,
    done: string,
    torque: string,
    tool: string,
    order: string,
    lastAt: string,
  ];
  readonly leftOut: (position: string) => string;
  readonly doneOf: (done: number, of: number) => string;
  readonly groupName: (group: PlannedGroup) => string;
  readonly isNew: string;
  readonly thenAngle: (angle: string) => string;
  readonly notInThisStep: string;
  readonly noTorque: string;
  readonly converted: (torque: string) => string;
  readonly wrenchSet: (wrench: string, torque: string, corrected: boolean) => string;
  readonly tool: (tool: PlannedTool) => string;
  readonly patterns: Readonly<Record<PlannedGroup['pattern'], string>>;
  readonly passes: Readonly<Record<PlannedPass['kind'], string>>;
  readonly taken: string;
  readonly measures: string;
  readonly measureColumns: readonly [step: string, what: string, limits: string, measured: string];
  readonly notMeasured: string;
  readonly outside: string;
  readonly at: string;
  readonly then: string;
  readonly between: (min: string, max: string) => string;
  readonly atLeast: (min: string) => string;
  readonly atMost: (max: string) => string;
  readonly noLimits: string;
  readonly checks: string;
  readonly notAnswered: string;
  readonly passed: string;
  readonly failed: string;
  readonly notes: string;
  readonly question: string;
  readonly noText: string;
  readonly media: Readonly<Record<'audio' | 'photo', string>>;
  readonly step: (number: string) => string;
  readonly outsideSteps: string;
  readonly before: string;
  readonly answers: Readonly<Record<'true' | 'not true', string>>;
  readonly wentOnWithout: (reason: string) => string;
  readonly cautionsAcknowledged: (count: number, of: number) => string;
  readonly afterwards: string;
  readonly followUp: (followUp: PlannedFollowUp) => string;
  readonly due: (when: string) => string;
  readonly followedUp: (name: string, when: string) => string;
  readonly signatures: string;
  readonly signHere: string;
  readonly signedInTool: string;
  readonly checkedHere: string;
  readonly footing: (events: number) => string;
  readonly chainedUpTo: string;
  readonly timesAreLocal: string;
  readonly figure: (value: number) => string;
  /** With the space before it where the language wants one. */
  readonly colon: string;
  readonly matter: (matter: Matter) => string;
  readonly reason: (reason: Reason, said: string | null) => string;
}

const all: Readonly<Record<Language, SheetWords>> = { en: englishSheet, fr: frenchSheet };

export const sheetWords = (language: Language): SheetWords => all[language];
