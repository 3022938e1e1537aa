import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { procedureJsonSchema } from '../../src/procedure/json-schema.ts';
import { withGroup, withSteps } from './written.ts';

const folder = new URL('../../procedures/', import.meta.url);
const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(procedureJsonSchema());

describe('the JSON Schema for editors', () => {
  it('is the one in procedures/ (npm run undertray -- check --schema > procedures/procedure.schema.json)', () => {
    expect(JSON.parse(readFileSync(new URL('procedure.schema.json', folder), 'utf8'))).toEqual(procedureJsonSchema());
  });

  it.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))('accepts %s', (name) => {
    accepts(parse(readFileSync(new URL(name, folder), 'utf8')));
    expect(accepts.errors ?? []).toEqual([]);
  });

  it.each([
    ['a value by build', withGroup('name: b\ncount: { build K: 4, other builds: 6 }'), true],
    ['an entry for some builds', withSteps('- { id: a, do: A., only: [K] }'), true],
    ['advice as a text', withSteps('- { id: a, do: A., hold: [{ ask: B?, if no: Stop. }] }'), true],
    ['a misspelt key', withSteps('- { id: a, doo: A. }'), false],
    ['a key beside build keys', withGroup('name: b\ncount: { build K: 4, most: 6 }'), false],
    ['an only for a whole procedure', withSteps('- { id: a, do: A. }', 'only: K\n'), false],
    ['a wrong value for one build', withGroup('name: b\ncount: { build K: 4, build M: many }'), false],
  ])('judges %s', (_what, text, verdict) => {
    expect(accepts(parse(text))).toBe(verdict);
  });
});
