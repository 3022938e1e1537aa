import { z } from '../torque/zod.ts';
import { procedureSchema } from './format.ts';

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
type JsonObject = Readonly<Record<string, Json>>;

/**
 * The JSON Schema (draft 2020-12) that editors complete and check procedure files by. It is made from the one schema in `format.ts`,
 * and lets every value differ by build and every entry of a list be `only` for some. The small written forms are told in the
 * descriptions; only `parse.ts` checks them.
 */
export function procedureJsonSchema(): JsonObject {
  const { $schema, ...procedure } = z.toJSONSchema(procedureSchema, { io: 'input', target: 'draft-2020-12' }) as unknown as JsonObject;
  const shelf = new Shelf();
  const top = shelf.entry(procedure, new Set(['undertray', 'id', 'revision', 'builds']), false);
  return {
    $schema: $schema ?? null,
    title: 'Undertray procedure, version 1',
    ...top,
    $defs: { ...fixedDefinitions, ...shelf.definitions() },
  };
}

const fixedDefinitions: JsonObject = {
  'build names': {
    description: 'The builds that this entry is for.',
    anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string' }, minItems: 1 }],
  },
};

/** Keeps each value's schema once, under the key it belongs to, because every one is referred to several times. */
class Shelf {
  private readonly names = new Map<string, string>();
  private readonly kept = new Map<string, JsonObject>();

  definitions(): JsonObject {
    return Object.fromEntries([...this.kept].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  /** An object's schema with a choice by build for every key but the fixed ones. */
  entry(schema: JsonObject, fixed: ReadonlySet<string>, inList: boolean): JsonObject {
    const properties = isObject(schema.properties) ? schema.properties : {};
    const changed = Object.entries(properties).map(
      ([key, value]) => [key, fixed.has(key) || !isObject(value) ? value : this.byBuild(value, key)] as const,
    );
    // Only an entry of a list can be left out for a build.
    const only = inList ? { only: { $ref: reference('build names') } } : {};
    return { ...schema, properties: { ...only, ...Object.fromEntries(changed) } };
  }

  /** A value's own schema, or one of it for each build. */
  private byBuild(schema: JsonObject, name: string, inList = false): JsonObject {
    const { description, default: usual, ...own } = schema;
    const plain = this.keep(this.opened(own, name, inList), name);
    const choice = this.keep(
      {
        type: 'object',
        description: 'One value for each build: "build K", "build M", and "other builds" for the rest.',
        patternProperties: { '^(build .+|other builds)$': { anyOf: [plain, { type: 'null' }] } },
        additionalProperties: false,
        minProperties: 1,
      },
      `${name} by build`,
    );
    return {
      ...(description === undefined ? {} : { description }),
      ...(usual === undefined ? {} : { default: usual }),
      anyOf: [plain, choice],
    };
  }

  private opened(schema: JsonObject, name: string, inList: boolean): JsonObject {
    if (isObject(schema.properties)) return this.entry(schema, new Set(), inList);
    if (isObject(schema.items)) {
      return { ...schema, items: this.byBuild(schema.items, `${name} entry`, true) };
    }
    if (isList(schema.anyOf))
      return { ...schema, anyOf: schema.anyOf.map((option) => (isObject(option) ? this.opened(option, name, inList) : option)) };
    return schema;
  }

  private keep(schema: JsonObject, name: string): JsonObject {
    const text = JSON.stringify(schema);
    const known = this.names.get(text);
    if (known !== undefined) return { $ref: reference(known) };
    let free = name;
    for (let again = 2; this.kept.has(free); again++) free = `${name} ${again}`;
    this.names.set(text, free);
    this.kept.set(free, schema);
    return { $ref: reference(free) };
  }
}

/** A reference is a URI, so spaces are escaped. */
function reference(name: string): string {
  return `#/$defs/${encodeURIComponent(name)}`;
}

function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !isList(value);
}

function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value);
}
