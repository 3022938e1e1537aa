import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { IDLEntry, IDLMember } from 'webidl2';
import { parse } from 'webidl2';
import { expect } from 'vitest';

const file = createRequire(import.meta.url).resolve('@webref/idl/speech-api.idl');

/** The Web Speech API's own interface definitions, as published with @webref/idl. */
export const speechIdl: readonly IDLEntry[] = parse(readFileSync(file, 'utf8'));

export function interfaceMembers(name: string): readonly IDLMember[] {
  const found = speechIdl.find((entry) => entry.type === 'interface' && entry.name === name && !entry.partial);
  if (found?.type !== 'interface') throw new Error(`No interface ${name}.`);
  return found.members;
}

export function enumValues(name: string): string[] {
  const found = speechIdl.find((entry) => entry.type === 'enum' && entry.name === name);
  if (found?.type !== 'enum') throw new Error(`No enumeration ${name}.`);
  return found.values.map(({ value }) => value);
}

/** Constructors in the IDL, whose least number of arguments is the `length` of the class. */
export function constructorLengths(name: string): number[] {
  return interfaceMembers(name).flatMap((member) =>
    member.type === 'constructor' ? [member.arguments.filter((argument) => !argument.optional).length] : [],
  );
}

/** Checks every attribute and operation of the interface against the class: kind, writability, number of arguments, static or not. */
export function expectMembers(name: string, subject: { readonly prototype: object; readonly name: string }): void {
  for (const member of interfaceMembers(name)) {
    const label = `${name}.${'name' in member ? member.name : member.type}`;
    if (member.type === 'attribute') {
      const descriptor = inheritedDescriptor(subject.prototype, member.name);
      expect(descriptor !== undefined && 'get' in descriptor, `${label} is an accessor`).toBe(true);
      expect(typeof descriptor?.set === 'undefined', `${label} is ${member.readonly ? 'read only' : 'writable'}`).toBe(member.readonly);
    } else if (member.type === 'operation') {
      const holder = member.special === 'static' ? subject : subject.prototype;
      const value: unknown = inheritedDescriptor(holder, member.name)?.value;
      expect(value, `${label} is a method`).toBeTypeOf('function');
      const overloads = interfaceMembers(name).filter((other) => other.type === 'operation' && other.name === member.name);
      const least = Math.min(
        ...overloads.map((other) => (other.type === 'operation' ? other.arguments.filter((argument) => !argument.optional).length : 0)),
      );
      expect((value as (...all: unknown[]) => unknown).length, `${label} takes at least ${least}`).toBe(least);
    }
  }
}

function inheritedDescriptor(start: object, property: string): PropertyDescriptor | undefined {
  for (let holder: object | null = start; holder !== null; holder = Object.getPrototypeOf(holder) as object | null) {
    const descriptor = Object.getOwnPropertyDescriptor(holder, property);
    if (descriptor) return descriptor;
  }
  return undefined;
}
