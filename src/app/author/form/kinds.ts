import type { Plain } from '../../../procedure/plain-tree.ts';
import { orderPatterns } from '../../../procedure/notation.ts';
import { signalWords } from '../../../procedure/format.ts';
import { torqueUnits } from '../../../torque/quantities.ts';

/** How one value is asked for. */
export type Widget =
  | { readonly kind: 'text'; readonly example?: string; readonly long?: boolean }
  | { readonly kind: 'number' }
  | { readonly kind: 'flag' }
  | { readonly kind: 'choice'; readonly of: readonly string[]; readonly translated: boolean }
  /** A list of plain values, with commas between. */
  | { readonly kind: 'words'; readonly example?: string }
  /** One of the ids that the file has: a step, a side procedure, a supply, a build. */
  | { readonly kind: 'names'; readonly of: NameSource; readonly many: boolean }
  | { readonly kind: 'way' };

export type NameSource = 'steps' | 'sides' | 'supplies' | 'parts' | 'builds';

export interface FieldKind {
  readonly key: string;
  readonly widget: Widget;
  /** Shown at once; the others stand behind "more". */
  readonly first: boolean;
}

/** A kind of entry: its values, the lists and entries inside it, and what a new one begins with. Nothing in it is a value of the trade. */
export interface EntryKind {
  readonly fields: readonly FieldKind[];
  readonly lists: readonly { readonly key: string; readonly kind: KindName; readonly single?: boolean }[];
  readonly fresh: (newId: (stem: string) => string) => Plain;
}

export type KindName =
  'head' | 'stage' | 'side' | 'step' | 'group' | 'caution' | 'before' | 'supply' | 'measure' | 'hold' | 'stop sign' | 'wait' | 'follow-up';

const text = (key: string, example?: string, long = false): FieldKind => ({
  key,
  first: true,
  widget: { kind: 'text', ...(example === undefined ? {} : { example }), ...(long ? { long } : {}) },
});
const number = (key: string): FieldKind => ({ key, first: true, widget: { kind: 'number' } });
const flag = (key: string): FieldKind => ({ key, first: true, widget: { kind: 'flag' } });
const choice = (key: string, of: readonly string[], translated: boolean): FieldKind => ({
  key,
  first: true,
  widget: { kind: 'choice', of, translated },
});
const words = (key: string, example?: string): FieldKind => ({
  key,
  first: true,
  widget: { kind: 'words', ...(example === undefined ? {} : { example }) },
});
const names = (key: string, of: NameSource, many: boolean): FieldKind => ({ key, first: true, widget: { kind: 'names', of, many } });
const way = (key: string): FieldKind => ({ key, first: true, widget: { kind: 'way' } });
const more = (field: FieldKind): FieldKind => ({ ...field, first: false });

export const kinds: Readonly<Record<KindName, EntryKind>> = {
  head: {
    fields: [
      text('title'),
      text('vehicle'),
      text('source', undefined, true),
      text('author'),
      number('revision'),
      choice('language', ['en', 'fr'], false),
      flag('invented'),
      more(text('id')),
    ],
    lists: [],
    fresh: () => ({}),
  },
  stage: {
    fields: [text('title')],
    lists: [],
    fresh: (newId) => ({ id: newId('stage'), title: '', steps: [fresh('step', newId)] }),
  },
  side: {
    fields: [text('title')],
    lists: [],
    fresh: (newId) => ({ id: newId('side'), title: '', steps: [fresh('step', newId)] }),
  },
  step: {
    fields: [
      text('do', undefined, true),
      text('why', undefined, true),
      text('where', undefined, true),
      words('tools'),
      names('uses', 'supplies', true),
      more(text('optional')),
      more(text('helper')),
      more(names('see', 'sides', false)),
      more(flag('free')),
      more(names('only', 'builds', true)),
      more(text('id')),
    ],
    lists: [
      { key: 'fasteners', kind: 'group' },
      { key: 'cautions', kind: 'caution' },
      { key: 'measure', kind: 'measure' },
      { key: 'hold', kind: 'hold' },
      { key: 'stop signs', kind: 'stop sign' },
      { key: 'wait', kind: 'wait', single: true },
    ],
    fresh: (newId) => ({ id: newId('step'), do: '' }),
  },
  group: {
    fields: [
      text('name'),
      number('count'),
      text('drive', 'hex 17'),
      choice('square', ['1/4', '3/8', '1/2', '3/4', '1'], false),
      text('torque', `90 ${torqueUnits[0]} ±5`),
      text('thread', 'M12x1.75'),
      text('class', '8.8'),
      choice('order', orderPatterns, true),
      words('passes', 'snug, 50%, 100%'),
      more(text('angle', '90°')),
      more(words('reach', 'extension 150, universal joint')),
      more(text('layout', 'circle from 12')),
      more(words('positions')),
      more(text('condition')),
      more(flag('single use')),
      more(names('part', 'parts', false)),
      more(names('only', 'builds', true)),
      more(text('id')),
    ],
    lists: [],
    fresh: (newId) => ({ id: newId('fasteners'), name: '', count: null }),
  },
  caution: {
    fields: [choice('signal', signalWords, false), text('text', undefined, true)],
    lists: [],
    fresh: () => ({ signal: 'CAUTION', text: '' }),
  },
  before: {
    fields: [choice('kind', ['condition', 'support', 'removed', 'part', 'mark'], true), text('check', undefined, true)],
    lists: [],
    fresh: (newId) => ({ id: newId('before'), kind: 'condition', check: '' }),
  },
  supply: {
    fields: [text('name'), number('count'), flag('single use'), more(text('id'))],
    lists: [],
    fresh: (newId) => ({ id: newId('supply'), name: '' }),
  },
  measure: {
    fields: [text('name'), text('unit', 'mm'), number('min'), number('max'), way('if outside'), more(text('id'))],
    lists: [],
    fresh: (newId) => ({ id: newId('measure'), name: '', unit: '' }),
  },
  hold: {
    fields: [text('ask', undefined, true), way('if no'), more(text('id'))],
    lists: [],
    fresh: (newId) => ({ id: newId('check'), ask: '' }),
  },
  'stop sign': {
    fields: [text('ask', undefined, true), way('if yes'), more(text('id'))],
    lists: [],
    fresh: (newId) => ({ id: newId('stop'), ask: '', 'if yes': '' }),
  },
  wait: { fields: [text('name'), text('for', '10 min'), flag('blocks')], lists: [], fresh: () => ({ name: '', for: '' }) },
  'follow-up': {
    fields: [text('say', undefined, true), text('after', '50 km')],
    lists: [],
    fresh: (newId) => ({ id: newId('after'), say: '', after: '' }),
  },
};

export const fresh = (kind: KindName, newId: (stem: string) => string): Plain => kinds[kind].fresh(newId);

/** The lowest id of a stem that the text does not have: "step-4". */
export function idMaker(written: string): (stem: string) => string {
  const given = new Set<string>();
  return (stem) => {
    for (let number = 1; ; number++) {
      const id = `${stem}-${number}`;
      if (given.has(id) || new RegExp(`(?:^|[^\\w-])${id}(?![\\w-])`).test(written)) continue;
      given.add(id);
      return id;
    }
  };
}
