import type { JobEvent, Recorded } from '../../job/events.ts';
import { personOf, stepOf } from './logged.ts';
import type { Logged } from './logged.ts';
import { localTime } from './times.ts';
import { markupText } from './xml-text.ts';

export const xesType = 'application/xml';

/**
 * The log as XES (IEEE 1849), for process mining: a trace a job, an event an event. The order of elements is the standard's:
 * extensions, globals, classifiers, attributes, traces. The activity of a step's beginning and end is the step, so that the two
 * pair up as `start` and `complete`; the activity of anything else is what happened.
 */
export function* xesFile(jobs: Iterable<Logged>): Generator<string> {
  yield head;
  for (const logged of jobs) {
    yield `  <trace>\n${traceAttributes(logged).join('')}`;
    for (const recorded of logged.events) yield `    <event>\n${eventAttributes(logged, recorded).join('')}    </event>\n`;
    yield '  </trace>\n';
  }
  yield '</log>\n';
}

const head = `<?xml version="1.0" encoding="UTF-8"?>
<log xes.version="2.0" xes.features="">
  <extension name="Concept" prefix="concept" uri="http://www.xes-standard.org/concept.xesext"/>
  <extension name="Lifecycle" prefix="lifecycle" uri="http://www.xes-standard.org/lifecycle.xesext"/>
  <extension name="Organizational" prefix="org" uri="http://www.xes-standard.org/org.xesext"/>
  <extension name="Time" prefix="time" uri="http://www.xes-standard.org/time.xesext"/>
  <extension name="Undertray" prefix="undertray" uri="https://undertray.example/xes/undertray.xesext"/>
  <global scope="trace">
    <string key="concept:name" value="job"/>
  </global>
  <global scope="event">
    <string key="concept:name" value="event"/>
    <string key="lifecycle:transition" value="complete"/>
    <string key="org:resource" value="unnamed"/>
    <date key="time:timestamp" value="1970-01-01T00:00:00.000+00:00"/>
    <string key="undertray:event" value="event"/>
  </global>
  <classifier name="Activity" scope="event" keys="concept:name"/>
  <classifier name="ActivityAndTransition" scope="event" keys="concept:name lifecycle:transition"/>
  <classifier name="Happening" scope="event" keys="undertray:event"/>
  <string key="concept:name" value="Undertray jobs"/>
`;

type Value = string | number | boolean | null;

function traceAttributes(logged: Logged): string[] {
  const { plan, job } = logged;
  const { person, group } = personOf(logged);
  const at = '    ';
  return [
    attribute(at, 'concept:name', job),
    attribute(at, 'undertray:procedure', plan?.procedure.id ?? null),
    attribute(at, 'undertray:title', plan?.procedure.title ?? null),
    attribute(at, 'undertray:revision', plan?.procedure.revision ?? null),
    attribute(at, 'undertray:build', plan?.build.id ?? null),
    attribute(at, 'undertray:person', person),
    attribute(at, 'undertray:group', group),
  ];
}

function eventAttributes(logged: Logged, { seq, moment, session, step, event, hash }: Recorded): string[] {
  const { person, group } = personOf(logged);
  const planned = stepOf(logged, step);
  const payload = Object.entries(event as unknown as Readonly<Record<string, Value>>).filter(([key]) => key !== 'type');
  const at = '      ';
  return [
    attribute(at, 'concept:name', activity(logged, event)),
    attribute(at, 'concept:instance', event.type === 'step-begun' ? String(event.visit) : null),
    attribute(at, 'lifecycle:transition', transition(event)),
    attribute(at, 'org:resource', person ?? 'unnamed'),
    attribute(at, 'org:group', group),
    `${at}<date key="time:timestamp" value="${localTime(moment)}"/>\n`,
    attribute(at, 'undertray:event', event.type),
    attribute(at, 'undertray:event_seq', seq),
    `${at}<float key="undertray:monotonic" value="${moment.mono}"/>\n`,
    attribute(at, 'undertray:session', session),
    attribute(at, 'undertray:at_step', step),
    attribute(at, 'undertray:step_number', planned?.number ?? null),
    ...payload.map(([key, value]) => attribute(at, `undertray:${key}`, value)),
    attribute(at, 'undertray:hash', hash),
  ];
}

function activity(logged: Logged, event: JobEvent): string {
  if (event.type !== 'step-begun' && event.type !== 'step-finished') return event.type;
  const planned = stepOf(logged, event.step);
  return planned === null ? `step ${event.step}` : `${planned.number} ${planned.id}`;
}

/** The standard lifecycle's own transitions. */
function transition(event: JobEvent): string {
  switch (event.type) {
    case 'step-begun':
    case 'timer-started':
      return 'start';
    case 'paused':
    case 'left-open':
    case 'handed-over':
      return 'suspend';
    case 'resumed':
      return 'resume';
    case 'step-finished':
      return event.how === 'done' ? 'complete' : 'manualskip';
    case 'step-skipped':
      return 'manualskip';
    default:
      return 'complete';
  }
}

function attribute(at: string, key: string, value: Value): string {
  if (value === null) return '';
  const kind =
    typeof value === 'boolean' ? 'boolean' : typeof value === 'string' ? 'string' : Number.isSafeInteger(value) ? 'int' : 'float';
  return `${at}<${kind} key="${key}" value="${markupText(String(value))}"/>\n`;
}
