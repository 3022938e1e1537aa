import { describe, expect, it } from 'vitest';
import { procedureJsonSchema } from '../../src/procedure/json-schema.ts';
import { cursorPlace, schemaHelp } from '../../src/procedure/schema-help.ts';

const help = schemaHelp(procedureJsonSchema());

/** The text without its bar, and where the bar was. */
function at(marked: string) {
  const cursor = marked.indexOf('|');
  return cursorPlace(marked.slice(0, cursor) + marked.slice(cursor + 1), cursor);
}

describe('what the schema knows of a place', () => {
  it('names the keys of an entry, the needed ones marked', () => {
    const keys = help.keysAt(['stages', 0, 'steps', 3, 'fasteners', 0]);
    expect(keys.map(({ key }) => key)).toEqual(expect.arrayContaining(['name', 'count', 'torque', 'drive', 'only']));
    expect(keys.filter(({ required }) => required).map(({ key }) => key)).toEqual(['name', 'count']);
    expect(keys.find(({ key }) => key === 'torque')?.about).toContain('90 N·m ±5');
    expect(help.keysAt([]).find(({ key }) => key === 'stages')?.holds).toBe('list');
  });

  it('sees through values by build', () => {
    expect(help.keysAt(['stages', 0, 'steps', 'build K', 0]).map(({ key }) => key)).toContain('do');
    expect(help.variesByBuild(['stages', 0, 'steps', 0, 'fasteners', 0, 'torque'])).toBe(true);
    expect(help.variesByBuild(['id'])).toBe(false);
  });

  it('names fixed values', () => {
    expect(help.valuesAt(['cautions', 0, 'signal'])).toEqual(['DANGER', 'WARNING', 'CAUTION', 'NOTICE']);
    expect(help.valuesAt(['stages', 0, 'steps', 0, 'fasteners', 0, 'order'])).toContain('cross');
    expect(help.valuesAt(['invented'])).toEqual(['true', 'false']);
    expect(help.valuesAt(['title'])).toEqual([]);
  });

  it('says what a place is for, and nothing of a place that is none', () => {
    expect(help.aboutAt(['stages', 0, 'steps', 0, 'do'])).toBe('The sentence that is read out.');
    expect(help.aboutAt(['stages', 0, 'nonsense'])).toBeNull();
  });
});

describe('where the cursor is', () => {
  const head = 'title: Practice\nstages:\n  - id: one\n    title: First\n    steps:\n      - id: a\n        do: Look.\n';

  it('at the start of a key', () => {
    expect(at(`${head}        wh|\n`)).toMatchObject({ path: ['stages', 0, 'steps', 0], wants: 'key', typed: 'wh', present: ['id', 'do'] });
    expect(at(`${head}      - |\n`)).toMatchObject({ path: ['stages', 0, 'steps', 1], wants: 'key', present: [] });
    expect(at(`${head}        |\n`)).toMatchObject({ path: ['stages', 0, 'steps', 0], wants: 'key', column: 8 });
    expect(at(`${head}|`)).toMatchObject({ path: [], wants: 'key', present: ['title', 'stages'] });
  });

  it('counts keys after it as present too', () => {
    expect(at('id: x\n|\nvehicle: y\n')).toMatchObject({ path: [], present: ['id', 'vehicle'] });
  });

  it('in a value', () => {
    expect(at(`${head}        optional: Becau|\n`)).toMatchObject({
      path: ['stages', 0, 'steps', 0, 'optional'],
      wants: 'value',
      typed: 'Becau',
    });
    expect(at('invented: |\n')).toMatchObject({ path: ['invented'], wants: 'value', typed: '' });
  });

  it('in lists and entries on one line', () => {
    expect(at(`${head}        uses: [rags, cl|]\n`)).toMatchObject({
      path: ['stages', 0, 'steps', 0, 'uses', 0],
      wants: 'value',
      typed: 'cl',
    });
    expect(at('count: { build K: 2, bu|\n')).toMatchObject({ path: ['count'], wants: 'key', typed: 'bu' });
    expect(at('order: { build K: cr|\n')).toMatchObject({ path: ['order', 'build K'], wants: 'value', typed: 'cr' });
  });

  it('in a list at the column of its key', () => {
    expect(at('cautions:\n- signal: CAUTION\n  te|\n')).toMatchObject({ path: ['cautions', 0], typed: 'te', present: ['signal'] });
    expect(at('cautions:\n- signal: CAUTION\n- signal: |\n')).toMatchObject({ path: ['cautions', 1, 'signal'], wants: 'value' });
  });

  it('nowhere in a comment or in a text of many lines', () => {
    expect(at('# wh|\n')).toBeNull();
    expect(at('title: x # wh|\n')).toBeNull();
    expect(at('why: |>\n')).not.toBeNull();
    expect(cursorPlace('why: |\n  some text\nid: x\n', 12)).toBeNull();
    expect(cursorPlace('why: |\n  some: text\nid: x\n', 20)).toMatchObject({ path: [], present: ['why', 'id'] });
  });
});
