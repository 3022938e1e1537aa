import { plural } from '../../../phrasing/en/torque-lines.ts';

const fields: Readonly<Record<string, string>> = {
  do: 'sentence',
  why: 'reason',
  where: 'place',
  count: 'number',
  class: 'property class',
  square: 'square drive',
  order: 'tightening order',
  positions: 'names of the positions',
  condition: 'condition of the thread',
  for: 'time',
  ask: 'question',
  check: 'condition',
  signal: 'signal word',
  say: 'text',
  after: 'moment',
  uses: 'supplies used',
  free: 'leave to do it at any time',
  optional: 'reason for leaving it out',
  helper: 'task of the second person',
  see: 'side procedure',
  min: 'least value',
  max: 'greatest value',
  only: 'builds that it is for',
  builds: 'builds',
};

const lists: Readonly<Record<string, string>> = {
  fasteners: 'the',
  measure: 'the measurement',
  hold: 'the check',
  'stop signs': 'the stop sign',
  cautions: 'the caution',
  before: 'the condition before starting',
  parts: 'the part',
  consumables: 'the consumable',
  supports: 'the support',
  afterwards: 'the follow-up',
  wait: 'the wait',
  'open questions': 'the open question',
  evidence: 'the evidence for',
  'if no': 'the way out when the answer is no',
  'if yes': 'the way out when the answer is yes',
  'if outside': 'the way out when outside the limits',
  builds: 'the builds',
};

/** The words for changes between two versions, in English. */
export const changeWordsEn = {
  procedure: 'the procedure',
  stage: (number: number, title: string) => `Stage ${number}${title === '' ? '' : `, “${title}”`}`,
  side: (title: string) => `Side procedure “${title}”`,
  step: (number: number, side: string | null) => (side === null ? `Step ${number}` : `Side procedure “${side}”, step ${number}`),
  entry: (list: string, name: string, count: number | null) =>
    list === 'fasteners'
      ? `the ${plural(name === '' ? 'fastener' : name, count ?? 2)}`
      : `${lists[list] ?? `“${list}”`}${name === '' ? '' : ` “${name}”`}`,
  within: (own: string, inner: string) => `${own}, in ${inner}`,
  field: (key: string, of: string | null) => `${fields[key] ?? key}${of === null ? '' : ` of ${of}`}`,
  onBuild: (build: string) => ` on build ${build}`,
  otherBuilds: ' on the other builds',
  happened: (what: string, how: 'added' | 'removed' | 'moved', steps: number | null) =>
    `${what} ${how}${steps === null || steps === 0 ? '' : steps === 1 ? ' with its one step' : ` with its ${steps} steps`}`,
  changed: (field: string, from: string | null, to: string | null) =>
    from === null
      ? `${field} added: ${to ?? 'empty'}`
      : to === null
        ? `${field} taken away (it was ${from})`
        : `${field} changed from ${from} to ${to}`,
  quoted: (text: string) => `“${text}”`,
  number: (value: number) => value.toLocaleString('en', { useGrouping: false, maximumFractionDigits: 6 }),
  yes: 'yes',
  no: 'no',
  nothing: 'nothing',
};

export type ChangeWords = typeof changeWordsEn;
