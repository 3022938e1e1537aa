import { reasons, intentNames } from '../../phrasing/intents.ts';
import { eventKinds, finishes, kindOf, unknownKind } from '../event-kinds.ts';
import type { Written } from '../written.ts';
import { writtenFrom } from '../written.ts';
import type { FaultExample, FileRead, IntakeReport, LineFault } from './intake-report.ts';
import type { LineFields } from './line-fields.ts';
import { fieldKind, makeLineFields, readQuickly, readSlowly, slot, textOf } from './line-fields.ts';
import type { Names } from './names.ts';
import { makeNames } from './names.ts';
import type { Release, Staging } from './staging.ts';
import { makeStaging } from './staging.ts';
import { decodeUtf8 } from './utf8.ts';

/** A run while its lines come in. Times are kept small: tenths of a second by the wall, milliseconds within a session. */
export interface StagedRun {
  readonly job: number;
  /** Where its rows stand: pairs of a first row and a length. One pair when nothing came between them. */
  readonly stretches: { readonly first: number; length: number }[];
  readonly wallBase: number;
  readonly offset: number;
  readonly firstSeq: number;
  next: number;
  /** Every number so far came once and in turn, so a row can be found from its number. */
  inTurn: boolean;
  /** Where the hash of its last event stands among those of all runs. */
  readonly lastHash: number;
  session: number;
  sessionIndex: number;
  monoBase: number;
  sessions: Map<number, { readonly index: number; readonly monoBase: number }> | null;
  opened: Opened | null;
  unlinked: boolean;
  forked: boolean;
  changed: boolean;
}

/** Who, what and where, as numbers in `names`; 0 is null. */
export interface Opened {
  readonly procedure: number;
  readonly title: number;
  readonly build: number;
  readonly person: number;
  readonly group: number;
  readonly revision: number;
}

export interface Intake {
  open(file: string): void;
  /** The next bytes of the open file, cut anywhere. They may be used again afterwards. */
  feed(bytes: Uint8Array): void;
  close(): void;
  report(): IntakeReport;
  /** What was read, for `settle`. Nothing may be fed afterwards. */
  staged(): Staged;
}

export interface Staged {
  readonly names: Names;
  readonly stepNames: Names;
  readonly rows: Staging;
  readonly runs: readonly StagedRun[];
  readonly written: readonly Written[];
}

export interface IntakeOptions {
  /** True when the line's hash is that of its content. Given for imports small enough to have each computed. */
  readonly isUnchanged?: (line: string) => boolean;
  readonly release?: Release;
  /** Plans known already, beside those that the files bring along. */
  readonly written?: readonly Written[];
}

/** Bytes of an event's line; the journal allows as many characters. */
const longestEvent = 4 * 65_536;
/** Bytes of a line that carries a plan. */
const longestLine = 32_000_000;
const mostSteps = 65_535;
/** Of each fault, so that a file read twice does not crowd out the others. */
const mostExamples = 40;
const lineFeed = 0x0a;
const hashWords = 16;

export function makeIntake(options: IntakeOptions = {}): Intake {
  const names = makeNames();
  const stepNames = makeNames();
  const rows = makeStaging(options.release ?? (() => undefined));
  const runs: StagedRun[] = [];
  const runOfJob = new Map<number, StagedRun>();
  /** The last hash of each run: its 64 letters, four to a number. */
  let hashes = new Int32Array(hashWords * 64);
  const written: Written[] = [...(options.written ?? [])];
  const plansKnown = new Set<string>();
  const fields = makeLineFields();
  const kindOfName = new Map<number, number>(eventKinds.map((type, index) => [names.numberOfText(type), index]));
  const intentOfName = placesOf(names, intentNames);
  const reasonOfName = placesOf(names, reasons);
  const finishOfName = placesOf(names, finishes);

  let carry = new Uint8Array(1 << 16);
  let carried = 0;
  let isPassingOver = false;
  let file = '';
  let line = 0;
  let usedInFile = 0;
  let lines = 0;
  let headers = 0;
  const files: FileRead[] = [];
  const faults: Partial<Record<LineFault, number>> = {};
  const examples: FaultExample[] = [];
  /** The newest line that carried a plan: it is read only when a run needs it. */
  let header = new Uint8Array(0);
  let headerLength = 0;
  let run: StagedRun | null = null;
  let lastStep = 0;
  let lastType = 0;
  let lastGroup = 0;
  let lastJob = new Uint8Array(64);
  let lastJobLength = 0;

  for (const plan of written) plansKnown.add(planKey(plan.procedure, plan.build, plan.revision));

  function fault(code: LineFault): void {
    const count = (faults[code] ?? 0) + 1;
    faults[code] = count;
    if (count <= mostExamples) examples.push({ file, line, fault: code });
  }

  function feed(bytes: Uint8Array): void {
    let start = 0;
    if (carried > 0 || isPassingOver) {
      const end = bytes.indexOf(lineFeed);
      const piece = end < 0 ? bytes.length : end + 1;
      if (!isPassingOver) keep(bytes.subarray(0, piece));
      if (end < 0) return;
      if (isPassingOver) isPassingOver = false;
      else takeLine(carry, 0, carried - 1);
      carried = 0;
      start = piece;
    }
    while (start < bytes.length) {
      // Reading finds the end of a line by itself; looking for it first would go over every byte twice.
      const read = startsLikeHeader(bytes, start) ? -1 : readQuickly(bytes, start, bytes.length, fields);
      const isWhole = read >= 0 && bytes[read] === lineFeed;
      const end = isWhole ? read : bytes.indexOf(lineFeed, start);
      if (end < 0) break;
      if (isWhole) takeRead(bytes, start, end, true);
      else takeLine(bytes, start, end);
      start = end + 1;
    }
    if (start < bytes.length) keep(bytes.subarray(start));
  }

  function keep(piece: Uint8Array): void {
    const length = carried + piece.length;
    if (length > longestLine) {
      line += 1;
      fault('too-long');
      carried = 0;
      isPassingOver = true;
      return;
    }
    if (length > carry.length) {
      const larger = new Uint8Array(Math.max(length, carry.length * 2));
      larger.set(carry.subarray(0, carried));
      carry = larger;
    }
    carry.set(piece, carried);
    carried = length;
  }

  /** A line that has not been read yet, or could not be read quickly. */
  function takeLine(bytes: Uint8Array, start: number, end: number): void {
    if (end - start < 2) {
      line += 1;
      return;
    }
    if (startsLikeHeader(bytes, start)) {
      line += 1;
      keepHeader(bytes, start, end);
      return;
    }
    takeRead(bytes, start, end, readQuickly(bytes, start, end, fields) === end || readSlowly(bytes, start, end, fields));
  }

  function takeRead(bytes: Uint8Array, start: number, end: number, isRead: boolean): void {
    line += 1;
    if (isRead && fields.kinds[slot.plan] === fieldKind.other && textIs(slot.kind, 'job')) {
      keepHeader(bytes, start, end);
      return;
    }
    const refused = isRead ? refusal(end - start) : 'not-json';
    if (refused !== null) fault(refused);
    else takeEvent(bytes, start, end);
  }

  /** Why what was read is no event that can be used, or null. */
  function refusal(length: number): LineFault | null {
    if (length > longestEvent) return 'too-long';
    if (fields.kinds[slot.v] !== fieldKind.number) return 'wrong-shape';
    if (fields.numbers[slot.v] !== 1 && fields.numbers[slot.v] !== 2) return 'other-version';
    return hasShape(fields) ? null : 'wrong-shape';
  }

  function textIs(at: number, expected: string): boolean {
    return fields.kinds[at] === fieldKind.text && textOf(fields, at) === expected;
  }

  function keepHeader(bytes: Uint8Array, start: number, end: number): void {
    headers += 1;
    headerLength = end - start;
    if (header.length < headerLength) header = new Uint8Array(headerLength * 2);
    header.set(bytes.subarray(start, end));
  }

  function takeEvent(bytes: Uint8Array, start: number, end: number): void {
    const seq = number(slot.seq);
    const current = runAtHand(seq);
    const mark = markOfHash(fields);
    if (seq < current.next) {
      const stretch = current.stretches[0];
      if (current.inTurn && stretch !== undefined && seq >= current.firstSeq) {
        const isSame = rows.markAt(stretch.first + seq - current.firstSeq) === mark;
        if (!isSame) current.forked = true;
        fault(isSame ? 'duplicate' : 'forked');
        return;
      }
      current.inTurn = false;
    } else if (seq > current.next) {
      current.inTurn = false;
    } else if (seq > current.firstSeq && !isLinked(fields, hashes, current.lastHash)) {
      current.unlinked = true;
    }
    const step = stepNumber();
    if (step > mostSteps) {
      fault('too-many-names');
      return;
    }
    if (options.isUnchanged !== undefined && !options.isUnchanged(decodeUtf8(bytes, start, end))) {
      current.changed = true;
      fault('changed');
    }
    lastType = nameNumber(slot.type, lastType);
    const kind = kindOfName.get(lastType) ?? unknownKind;
    if (kind === unknownKind) fault('unknown-event');
    if (kind === kindOf.opened) current.opened ??= takeOpened();
    takeSession(current);
    const wall = Math.round((number(slot.wall) - current.wallBase) / 100);
    const mono = Math.round(number(slot.mono) - current.monoBase);
    rows.append(kind, step, detailOf(kind), extraOf(kind), seq, mark, clamp(wall), clamp(mono), current.sessionIndex);
    const row = rows.count() - 1;
    const last = current.stretches.at(-1);
    if (last !== undefined && last.first + last.length === row) last.length += 1;
    else current.stretches.push({ first: row, length: 1 });
    if (current.stretches.length > 1) current.inTurn = false;
    if (seq >= current.next) {
      current.next = seq + 1;
      keepHash(fields, hashes, current.lastHash);
    }
    usedInFile += 1;
  }

  /** The run that the line belongs to; nearly always the one of the line before. */
  function runAtHand(seq: number): StagedRun {
    const from = fields.starts[slot.job] ?? 0;
    const length = (fields.ends[slot.job] ?? 0) - from;
    if (run !== null && length === lastJobLength) {
      let at = 0;
      while (at < length && fields.bytes[from + at] === lastJob[at]) at++;
      if (at === length) return run;
    }
    if (length > lastJob.length) lastJob = new Uint8Array(length * 2);
    for (let at = 0; at < length; at++) lastJob[at] = fields.bytes[from + at] ?? 0;
    lastJobLength = length;
    const job = nameNumber(slot.job);
    const known = runOfJob.get(job);
    if (known !== undefined) return (run = known);
    const lastHash = runs.length * hashWords;
    if (lastHash === hashes.length) {
      const larger = new Int32Array(hashes.length * 2);
      larger.set(hashes);
      hashes = larger;
    }
    run = {
      job,
      stretches: [],
      wallBase: number(slot.wall),
      offset: number(slot.offset),
      firstSeq: seq,
      next: seq,
      inTurn: true,
      lastHash,
      session: 0,
      sessionIndex: 0,
      monoBase: 0,
      sessions: null,
      opened: null,
      unlinked: false,
      forked: false,
      changed: false,
    };
    runs.push(run);
    runOfJob.set(job, run);
    return run;
  }

  function takeSession(current: StagedRun): void {
    const session = nameNumber(slot.session, current.session);
    if (session === current.session) return;
    if (current.session === 0) {
      current.monoBase = number(slot.mono);
    } else {
      current.sessions ??= new Map([[current.session, { index: current.sessionIndex, monoBase: current.monoBase }]]);
      const seen = current.sessions.get(session) ?? { index: Math.min(current.sessions.size, 0xffff), monoBase: number(slot.mono) };
      current.sessions.set(session, seen);
      current.sessionIndex = seen.index;
      current.monoBase = seen.monoBase;
    }
    current.session = session;
  }

  function takeOpened(): Opened {
    const opened = {
      procedure: nameNumber(slot.procedure),
      title: nameNumber(slot.title),
      build: nameNumber(slot.build),
      person: nameNumber(slot.person),
      group: nameNumber(slot.group),
      revision: fields.kinds[slot.revision] === fieldKind.number ? number(slot.revision) : 0,
    };
    const key = planKey(names.text(opened.procedure), names.text(opened.build), opened.revision);
    if (headerLength > 0 && !plansKnown.has(key)) {
      const plan = planOfHeader(decodeUtf8(header, 0, headerLength), textOf(fields, slot.job));
      if (plan !== null && planKey(plan.procedure, plan.build, plan.revision) === key) {
        plansKnown.add(key);
        written.push(plan);
      }
    }
    return opened;
  }

  function number(at: number): number {
    return fields.numbers[at] ?? 0;
  }

  function nameNumber(at: number, guess = 0): number {
    return fields.kinds[at] === fieldKind.text ? names.numberOf(fields.bytes, fields.starts[at] ?? 0, fields.ends[at] ?? 0, guess) : 0;
  }

  function stepNumber(): number {
    const at = fields.kinds[slot.ownStep] === fieldKind.text ? slot.ownStep : slot.step;
    if (fields.kinds[at] !== fieldKind.text) return 0;
    lastStep = stepNames.numberOf(fields.bytes, fields.starts[at] ?? 0, fields.ends[at] ?? 0, lastStep);
    return lastStep;
  }

  function detailOf(kind: number): number {
    switch (eventKinds[kind]) {
      case 'fastener-tightened':
      case 'fastener-left-out':
        lastGroup = nameNumber(slot.group, lastGroup);
        return lastGroup;
      case 'hold-answered':
        return nameNumber(slot.hold);
      case 'measured':
        return nameNumber(slot.measure);
      case 'stop-sign-answered':
        return nameNumber(slot.sign);
      case 'misheard':
      case 'noted':
        return nameNumber(slot.text);
      case 'signed':
        return nameNumber(slot.name);
      case 'asked':
      case 'refused':
        return intentOfName.get(nameNumber(slot.intent)) ?? 0;
      case 'step-skipped':
      case 'matter-accepted':
      case 'before-left':
        return reasonOfName.get(nameNumber(slot.reason)) ?? 0;
      case 'step-finished':
        return finishOfName.get(nameNumber(slot.how)) ?? 0;
      case 'step-begun':
        return number(slot.visit);
      case 'undone':
        return number(slot.ownSeq);
      case 'looked-back':
        // Ends the look when it names no step.
        return fields.kinds[slot.ownStep] === fieldKind.text ? 1 : 0;
      default:
        return 0;
    }
  }

  function extraOf(kind: number): number {
    switch (eventKinds[kind]) {
      case 'fastener-tightened':
        return Math.min(255, number(slot.pass)) * 256 + Math.min(255, number(slot.position));
      case 'fastener-left-out':
        return Math.min(255, number(slot.position));
      case 'hold-answered':
        return isTrue(slot.passed);
      case 'measured':
        return isTrue(slot.within);
      case 'stop-sign-answered':
        return isTrue(slot.felt);
      case 'noted':
        return isTrue(slot.question);
      default:
        return 0;
    }
  }

  function isTrue(at: number): number {
    return fields.kinds[at] === fieldKind.true ? 1 : 0;
  }

  return {
    open(name) {
      file = name;
      line = 0;
      usedInFile = 0;
      carried = 0;
      isPassingOver = false;
    },
    feed,
    close() {
      if (carried > 0) {
        keep(Uint8Array.of(lineFeed));
        takeLine(carry, 0, carried - 1);
        carried = 0;
      }
      files.push({ name: file, lines: line, used: usedInFile });
      lines += line;
    },
    report: () => ({
      files,
      lines,
      used: rows.count(),
      headers,
      faults,
      examples,
      hashes: options.isUnchanged === undefined ? 'compared' : 'computed',
    }),
    staged: () => ({ names, stepNames, rows, runs, written }),
  };
}

function placesOf(names: Names, list: readonly string[]): ReadonlyMap<number, number> {
  return new Map(list.map((name, index) => [names.numberOfText(name), index]));
}

function planKey(procedure: string, build: string, revision: number): string {
  return JSON.stringify([procedure, build, revision]);
}

/** The first key of a header as this app writes it; an event's line begins with `{"event":{`. */
const headerStart = Uint8Array.from('{"events":', (letter) => letter.charCodeAt(0));

function startsLikeHeader(bytes: Uint8Array, start: number): boolean {
  for (let index = 0; index < headerStart.length; index++) if (bytes[start + index] !== headerStart[index]) return false;
  return true;
}

function planOfHeader(text: string, job: string): Written | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const { job: own, plan } = value as { readonly job?: unknown; readonly plan?: unknown };
  return own === job ? writtenFrom(plan) : null;
}

const required: readonly (readonly [number, number])[] = [
  [slot.job, fieldKind.text],
  [slot.seq, fieldKind.number],
  [slot.session, fieldKind.text],
  [slot.previous, fieldKind.text],
  [slot.hash, fieldKind.text],
  [slot.wall, fieldKind.number],
  [slot.offset, fieldKind.number],
  [slot.mono, fieldKind.number],
  [slot.type, fieldKind.text],
];

/** The farthest that ECMAScript's own dates reach, and the most events that a job may have, as the journal has it. */
const farthestWall = 8.64e15;
const mostEvents = 200_000;

function hasShape({ kinds, starts, ends, numbers }: LineFields): boolean {
  for (let index = 0; index < required.length; index++) {
    const field = required[index];
    if (field !== undefined && kinds[field[0]] !== field[1]) return false;
  }
  const isStep = kinds[slot.step] === fieldKind.text || kinds[slot.step] === fieldKind.null;
  const seq = numbers[slot.seq] ?? -1;
  const isSeq = Number.isInteger(seq) && seq >= 0 && seq <= mostEvents;
  const isTime =
    Math.abs(numbers[slot.wall] ?? NaN) <= farthestWall &&
    Number.isFinite(numbers[slot.mono]) &&
    Math.abs(numbers[slot.offset] ?? NaN) <= 1440;
  const areHashes = lengthOf(slot.hash, starts, ends) === 64 && lengthOf(slot.previous, starts, ends) === 64;
  return isStep && isSeq && isTime && areHashes && lengthOf(slot.job, starts, ends) > 0 && lengthOf(slot.session, starts, ends) > 0;
}

function lengthOf(at: number, starts: Int32Array, ends: Int32Array): number {
  return (ends[at] ?? 0) - (starts[at] ?? 0);
}

/** A number made of the hash's first letters: enough to tell the same line from another one of the same number. */
function markOfHash({ view, starts }: LineFields): number {
  const start = starts[slot.hash] ?? 0;
  return (view.getInt32(start) ^ Math.imul(view.getInt32(start + 4), 0x9e3779b1)) >>> 0;
}

function isLinked({ view, starts }: LineFields, hashes: Int32Array, at: number): boolean {
  const start = starts[slot.previous] ?? 0;
  for (let word = 0; word < hashWords; word++) if (view.getInt32(start + word * 4) !== hashes[at + word]) return false;
  return true;
}

function keepHash({ view, starts }: LineFields, hashes: Int32Array, at: number): void {
  const start = starts[slot.hash] ?? 0;
  for (let word = 0; word < hashWords; word++) hashes[at + word] = view.getInt32(start + word * 4);
}

function clamp(value: number): number {
  return Math.max(-0x7fffffff, Math.min(0x7fffffff, value));
}
