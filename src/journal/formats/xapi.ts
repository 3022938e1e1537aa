import type { JobEvent, Recorded } from '../../job/events.ts';
import { isUuid, nameUuid } from '../uuid.ts';
import { groupOf, personOf, stepOf } from './logged.ts';
import type { Logged } from './logged.ts';
import { localTime, millisecondsBetween } from './times.ts';

/** The version of the specification that the statements keep to (xAPI 1.0.3; IEEE 9274.1.1 takes them too). */
export const xapiVersion = '1.0.3';
export const xapiType = 'application/json';

/** Our own words, under a name that nobody can own (RFC 2606). */
const home = 'https://undertray.example';
const vocabulary = `${home}/xapi`;
/** An arbitrary UUID, fixed for good: the ids of all statements grow from it. */
const namespace = '6f0f8c1e-6a57-4d5e-9a55-2f1d8f1f3b7c';

export type Language = Readonly<Record<string, string>>;

interface Activity {
  readonly objectType: 'Activity';
  readonly id: string;
  readonly definition: { readonly name: Language; readonly description?: Language; readonly type: string };
}

/** A statement as this tool makes them (xAPI 1.0.3, part 2). */
export interface Statement {
  readonly id: string;
  readonly actor: {
    readonly objectType: 'Agent';
    readonly name: string;
    readonly account: { readonly homePage: string; readonly name: string };
  };
  readonly verb: { readonly id: string; readonly display: Language };
  readonly object: Activity;
  readonly result?: Result;
  readonly context: {
    readonly registration: string;
    readonly platform: string;
    readonly language: string;
    readonly revision: string;
    readonly contextActivities: { readonly grouping: readonly Activity[]; readonly parent?: readonly Activity[] };
    readonly extensions: Readonly<Record<string, unknown>>;
  };
  readonly timestamp: string;
}

interface Result {
  readonly success?: boolean;
  readonly completion?: boolean;
  readonly response?: string;
  readonly duration?: string;
  readonly extensions?: Readonly<Record<string, unknown>>;
}

export interface XapiOptions {
  /** Where the people's names are accounts: the training centre's own page, or ours. */
  readonly people?: string;
}

/** The statement's id: the same whenever and wherever it is made, so that sending it twice does no harm. */
export function statementId(job: string, seq: number): string {
  return nameUuid(namespace, `${job}/${seq}`);
}

/**
 * A job's events as statements, one each, in order. Words that were misheard stay on the device: they may be a bystander's.
 * Without a plan there is nothing to say what was worked on, and so there are no statements.
 */
export function* statements(logged: Logged, { people = `${home}/people` }: XapiOptions = {}): Generator<Statement> {
  if (logged.plan === null) return;
  const begun = new Map<string, Recorded>();
  const first = logged.events[0];
  const { person, group } = personOf(logged);
  const language = languageOf(logged);
  const registration = isUuid(logged.job) ? logged.job : nameUuid(namespace, logged.job);
  for (const recorded of logged.events) {
    const { event, seq, moment, session, hash } = recorded;
    if (event.type === 'step-begun') begun.set(event.step, recorded);
    const since =
      event.type === 'step-finished' ? begun.get(event.step) : event.type === 'signed' || event.type === 'left-open' ? first : undefined;
    const result = resultOf(event, since === undefined ? null : millisecondsBetween(since, recorded));
    const job = procedureActivity(logged);
    const object = objectOf(logged, recorded);
    // What is done after the job need not be done by the person who worked it.
    const who = (event.type === 'follow-up-done' ? event.name : person) ?? 'unnamed';
    yield {
      id: statementId(logged.job, seq),
      actor: { objectType: 'Agent', name: who, account: { homePage: people, name: who } },
      verb: verbOf(event),
      object,
      ...(Object.keys(result).length === 0 ? {} : { result }),
      context: {
        registration,
        platform: 'Undertray',
        language,
        revision: String(logged.plan.procedure.revision),
        contextActivities: { grouping: [job], ...(object.id === job.id ? {} : { parent: [parentOf(logged, recorded) ?? job] }) },
        extensions: extensions({ seq, session, monotonic: moment.mono, build: logged.plan.build.id, group, hash }),
      },
      timestamp: localTime(moment),
    };
  }
}

/** The statements of several jobs as one JSON array, a statement a line. */
export function* xapiFile(jobs: Iterable<Logged>, options?: XapiOptions): Generator<string> {
  let before = '[';
  for (const logged of jobs) {
    for (const statement of statements(logged, options)) {
      yield `${before}\n${JSON.stringify(statement)}`;
      before = ',';
    }
  }
  yield before === '[' ? '[]\n' : '\n]\n';
}

/** ISO 8601, to the hundredth of a second, as the specification asks. */
function duration(milliseconds: number): string {
  return `PT${Number((milliseconds / 1000).toFixed(2))}S`;
}

function extensions(values: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(values)
      .filter(([, value]) => value !== null && value !== undefined)
      .map(([key, value]) => [`${vocabulary}/extensions/${key}`, value]),
  );
}

function verbOf({ type }: JobEvent): Statement['verb'] {
  return { id: `${vocabulary}/verbs/${type}`, display: { en: verbWords[type] } };
}

const verbWords: Readonly<Record<JobEvent['type'], string>> = {
  opened: 'opened',
  'caution-acknowledged': 'acknowledged a caution',
  'before-answered': 'answered what must be true first',
  'before-left': 'went on without',
  'kit-answered': 'looked for',
  'kit-waved-through': 'took the rest of the kit as read',
  'step-carried-out': 'carried out',
  'fastener-tightened': 'tightened',
  'fastener-left-out': 'left out',
  measured: 'measured',
  'hold-answered': 'checked',
  'wait-cut-short': 'cut a wait short at',
  'step-skipped': 'skipped',
  'step-reopened': 'reopened',
  'looked-back': 'looked back at',
  stopped: 'stopped',
  'stop-sign-answered': 'answered a stop sign',
  paused: 'paused',
  resumed: 'resumed',
  'timer-started': 'started the timer of',
  'timer-ended': 'waited out',
  noted: 'noted',
  'finish-asked': 'asked to finish',
  'matter-accepted': 'accepted as it is',
  'left-open': 'left open',
  'handed-over': 'handed over',
  signed: 'signed',
  'follow-up-done': 'followed up on',
  undone: 'took back',
  'step-begun': 'began',
  'step-finished': 'finished',
  asked: 'asked',
  misheard: 'was not understood',
  refused: 'was refused',
  'unit-chosen': 'chose a unit',
  'clock-jumped': 'had the clock change',
};

function resultOf(event: JobEvent, elapsed: number | null): Result {
  const time = elapsed === null ? {} : { duration: duration(elapsed) };
  switch (event.type) {
    case 'before-answered':
      return { success: event.isTrue };
    case 'kit-answered':
      return { success: event.atHand };
    case 'measured':
      return {
        success: event.within,
        response: `${event.value} ${event.unit}`,
        extensions: extensions({ value: event.value, unit: event.unit }),
      };
    case 'hold-answered':
      return { success: event.passed };
    case 'stop-sign-answered':
      return { response: event.felt ? 'yes' : 'no' };
    case 'before-left':
    case 'fastener-left-out':
    case 'step-skipped':
    case 'matter-accepted':
      return { response: event.text ?? event.reason, extensions: extensions({ reason: event.reason }) };
    case 'noted':
      return { response: event.text, extensions: extensions({ question: event.question, media: event.media }) };
    case 'step-finished':
      return { ...time, completion: event.how === 'done' };
    case 'signed':
      return { ...time, completion: true };
    case 'left-open':
      return { ...time, completion: false };
    case 'fastener-tightened':
      return { extensions: extensions({ pass: event.pass + 1 }) };
    case 'undone':
      return { extensions: extensions({ undone: event.seq }) };
    case 'step-begun':
      return { extensions: extensions({ visit: event.visit }) };
    case 'asked':
    case 'refused':
      return { response: event.intent };
    case 'unit-chosen':
      return { response: event.unit ?? "each source's own" };
    case 'clock-jumped':
      return { extensions: extensions({ milliseconds: event.milliseconds }) };
    case 'handed-over':
      return { response: event.way };
    case 'follow-up-done':
      return { completion: true, ...(event.text === null ? {} : { response: event.text }) };
    case 'opened':
    case 'caution-acknowledged':
    case 'kit-waved-through':
    case 'step-carried-out':
    case 'wait-cut-short':
    case 'step-reopened':
    case 'looked-back':
    case 'stopped':
    case 'paused':
    case 'resumed':
    case 'timer-started':
    case 'timer-ended':
    case 'finish-asked':
    case 'misheard':
      return {};
  }
}

function objectOf(logged: Logged, { event, step }: Recorded): Activity {
  switch (event.type) {
    case 'fastener-tightened':
    case 'fastener-left-out': {
      const group = groupOf(logged, event.step, event.group);
      const position = group?.positions[event.position]?.name ?? String(event.position + 1);
      const path = ['steps', event.step, 'fasteners', event.group, String(event.position + 1)];
      return activity(logged, 'fastener', path, `${group?.name ?? event.group}: ${position}`);
    }
    case 'measured': {
      const measure = stepOf(logged, event.step)?.measures.find(({ id }) => id === event.measure);
      return activity(logged, 'measure', ['steps', event.step, 'measures', event.measure], measure?.name ?? event.measure);
    }
    case 'hold-answered': {
      const hold = stepOf(logged, event.step)?.holds.find(({ id }) => id === event.hold);
      return activity(logged, 'hold-point', ['steps', event.step, 'hold-points', event.hold], hold?.ask ?? event.hold);
    }
    case 'stop-sign-answered': {
      const sign = stepOf(logged, event.step)?.stopSigns.find(({ id }) => id === event.sign);
      return activity(logged, 'stop-sign', ['steps', event.step, 'stop-signs', event.sign], sign?.ask ?? event.sign);
    }
    case 'caution-acknowledged': {
      const caution = logged.plan?.cautions.find(({ id }) => id === event.caution);
      return activity(logged, 'caution', ['cautions', event.caution], caution?.text ?? event.caution);
    }
    case 'before-answered':
    case 'before-left': {
      const before = logged.plan?.befores.find(({ id }) => id === event.before);
      return activity(logged, 'before', ['befores', event.before], before?.check ?? event.before);
    }
    case 'kit-answered': {
      const item = logged.plan?.kit.find(({ id }) => id === event.item);
      return activity(logged, 'kit-item', ['kit', event.item], item?.name ?? event.item);
    }
    case 'follow-up-done': {
      const followUp = logged.plan?.followUps.find(({ id }) => id === event.followUp);
      return activity(logged, 'follow-up', ['follow-ups', event.followUp], followUp?.say ?? event.followUp);
    }
    case 'matter-accepted':
      return activity(logged, 'matter', ['matters', event.matter], event.matter);
    default: {
      const id = 'step' in event ? event.step : step;
      return id === null ? procedureActivity(logged) : stepActivity(logged, id);
    }
  }
}

/** The step that the thing belongs to, where it is not the step itself. */
function parentOf(logged: Logged, { event }: Recorded): Activity | null {
  switch (event.type) {
    case 'fastener-tightened':
    case 'fastener-left-out':
    case 'measured':
    case 'hold-answered':
    case 'stop-sign-answered':
      return stepActivity(logged, event.step);
    default:
      return null;
  }
}

function procedureActivity(logged: Logged): Activity {
  return activity(logged, 'procedure', [], logged.plan?.procedure.title ?? '');
}

function stepActivity(logged: Logged, id: string): Activity {
  const step = stepOf(logged, id);
  return activity(logged, 'step', ['steps', id], step === null ? id : `${step.number}. ${step.say}`);
}

function activity({ plan }: Pick<Logged, 'plan'>, type: string, path: readonly string[], name: string): Activity {
  const all = ['procedures', plan?.procedure.id ?? '', `revision-${plan?.procedure.revision ?? 0}`, plan?.build.id ?? '', ...path];
  return {
    objectType: 'Activity',
    id: `${vocabulary}/${all.map((part) => segment(part)).join('/')}`,
    definition: { name: { [languageOf({ plan })]: name }, type: `${vocabulary}/activity-types/${type}` },
  };
}

/** Part of an IRI; half of a surrogate pair has no place in one. */
function segment(text: string): string {
  return encodeURIComponent(text.replaceAll(/\p{Cs}/gu, '\uFFFD'));
}

/** The procedure's language where it is given as a language tag (RFC 5646), which a statement must have; otherwise "undetermined". */
function languageOf({ plan }: Pick<Logged, 'plan'>): string {
  const language = plan?.procedure.language ?? '';
  return /^[a-z]{2,3}(?:-[a-z0-9]{2,8})*$/iu.test(language) ? language : 'und';
}
