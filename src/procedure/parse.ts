import type { z } from '../torque/zod.ts';
import { buildFaults, buildResolver, traceAt, type PlainValue, type Resolved, type Trace } from './builds.ts';
import { buildIdForm, buildIdPattern, limits, procedureSchema, type Procedure } from './format.ts';
import { nearest } from './nearest.ts';
import { mergeOverBuilds } from './over-builds.ts';
import { describe, type Place, type Problem, type ProblemCode } from './problem.ts';
import { joinPath, readYaml, type Ruler, type YamlNode } from './yaml-tree.ts';

/** A procedure file that was read and fits the format: the procedure as it stands for each of its builds. */
export interface ProcedureFile {
  /** The file's name, for messages. */
  readonly name: string;
  readonly id: string;
  readonly title: string;
  readonly vehicle: string;
  /** BCP 47 tag. */
  readonly language: string;
  /** Build names and how to tell them apart, in the author's order. */
  readonly builds: ReadonlyMap<string, string>;
  readonly variants: ReadonlyMap<string, Procedure>;
  /** Values that some builds have and others have not been given. */
  readonly forgotten: readonly { readonly place: Place; readonly builds: readonly string[] }[];
  /** Where something stands in the file, by its way through the procedure for that build. */
  readonly locate: (build: string, path: readonly PropertyKey[]) => Place;
}

export type Parsed = { readonly ok: true; readonly file: ProcedureFile } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a procedure file. Every problem is told with its place, not only the first. Never throws, whatever the text. */
export function parseProcedure(text: string, name: string): Parsed {
  const { root, ruler, problems: yamlProblems } = readYaml(text, name);
  if (root === null || yamlProblems.length > 0) return refused(yamlProblems);
  const builds = buildNames(root);
  if (builds.size === 0 || builds.size > limits.builds) return refused([buildsProblem(root, name, ruler)]);

  const problems: Problem[] = [];
  const forgotten: { place: Place; builds: readonly string[] }[] = [];
  for (const fault of buildFaults(root, builds)) {
    const place = { file: name, ...ruler(fault.offset), path: fault.path };
    if (fault.code === 'forgotten') forgotten.push({ place, builds: fault.builds });
    else {
      const expected =
        fault.code === 'unknown-build' ? `one of ${[...builds].join(', ')}` : 'only keys such as "build K" and "other builds" together';
      problems.push({ code: fault.code, ...place, found: fault.found, expected, build: null });
    }
  }
  if (problems.length > 0) return refused(problems);

  const variants = new Map<string, Procedure>();
  const traces = new Map<string, Trace>();
  const resolve = buildResolver(root);
  for (const build of builds) {
    const resolved = resolve(build);
    traces.set(build, resolved.trace);
    const result = procedureSchema.safeParse(resolved.value);
    if (result.success) variants.set(build, result.data);
    else problems.push(...schemaProblems(result.error.issues, resolved, name, ruler, build));
  }
  const [first] = variants.values();
  for (const variant of variants.values()) {
    for (const key of ['id', 'revision'] as const) {
      if (first === undefined || variant[key] === first[key]) continue;
      const found = `${String(first[key])} and ${String(variant[key])}`;
      const place = traceAt(resolve([...variants.keys()][0] ?? '').trace, [key]).trace;
      problems.push({
        code: 'mixed-build-keys',
        file: name,
        ...ruler(place.offset),
        path: key,
        found,
        expected: 'one for all builds',
        build: null,
      });
    }
  }
  if (problems.length > 0 || first === undefined) return refused(mergeOverBuilds(problems, builds.size));
  return {
    ok: true,
    file: {
      name,
      id: first.id,
      title: first.title,
      vehicle: first.vehicle,
      language: first.language,
      builds: new Map(Object.entries(first.builds)),
      variants,
      forgotten,
      locate: (build, path) => {
        const trace = traces.get(build);
        const found = trace === undefined ? undefined : traceAt(trace, path).trace;
        return { file: name, ...ruler(found?.offset ?? 0), path: found?.path ?? '' };
      },
    },
  };
}

function refused(problems: readonly Problem[]): Parsed {
  const sorted = [...problems].sort((a, b) => a.line - b.line || a.column - b.column);
  const told = sorted.slice(0, limits.problems);
  const last = told.at(-1);
  if (sorted.length > told.length && last !== undefined) {
    told.push({
      ...last,
      code: 'too-many-problems',
      path: '',
      found: `${sorted.length - told.length} more problems`,
      expected: 'none',
      build: null,
    });
  }
  return { ok: false, problems: told };
}

/** The keys of the top-level `builds`, read ahead of everything else because all the rest depends on them. */
function buildNames(root: YamlNode): ReadonlySet<string> {
  const entry = root.kind === 'map' ? root.entries.find(({ key }) => key === 'builds') : undefined;
  const keys = entry?.value.kind === 'map' ? entry.value.entries.map(({ key }) => key) : [];
  return new Set(keys.every((key) => buildIdPattern.test(key)) ? keys : []);
}

function buildsProblem(root: YamlNode, file: string, ruler: Ruler): Problem {
  const entry = root.kind === 'map' ? root.entries.find(({ key }) => key === 'builds') : undefined;
  const wrong = entry?.value.kind === 'map' ? entry.value.entries.find(({ key }) => !buildIdPattern.test(key)) : undefined;
  const expected = 'builds by name, such as "K: short wheelbase"';
  if (root.kind !== 'map') {
    const found = root.kind === 'list' ? 'a list' : describe(root.value);
    return {
      code: 'bad-value',
      file,
      ...ruler(root.offset),
      path: '',
      found,
      expected: 'a procedure that begins with "undertray: 1"',
      build: null,
    };
  }
  if (entry === undefined) return { code: 'missing', file, ...ruler(root.offset), path: 'builds', found: 'nothing', expected, build: null };
  if (wrong !== undefined) {
    return {
      code: 'bad-key',
      file,
      ...ruler(wrong.keyOffset),
      path: joinPath('builds', wrong.key),
      found: `"${wrong.key}"`,
      expected: buildIdForm,
      build: null,
    };
  }
  const found =
    entry.value.kind === 'map' ? `${entry.value.entries.length} builds` : describe(entry.value.kind === 'value' ? entry.value.value : []);
  return {
    code: 'bad-value',
    file,
    ...ruler(entry.value.offset),
    path: 'builds',
    found,
    expected: `${expected}, 1 to ${limits.builds} of them`,
    build: null,
  };
}

type Issue = z.core.$ZodIssue;

function schemaProblems(issues: readonly Issue[], resolved: Resolved, file: string, ruler: Ruler, build: string): readonly Problem[] {
  const strange = new Set(issues.filter(({ code }) => code === 'unrecognized_keys').map(({ path }) => path.join('\n')));
  return issues.flatMap((issue): Problem[] => {
    if (issue.code === 'unrecognized_keys') return unknownKeys(issue, resolved, file, ruler, build);
    // A rule about the whole entry says little while a key in it is misspelt.
    if (issue.code === 'custom' && strange.has(issue.path.join('\n'))) return [];
    const inner = issue.code === 'invalid_union' ? innerIssues(issue) : null;
    if (inner !== null) return [...schemaProblems(inner, resolved, file, ruler, build)];
    const found = valueAt(resolved.value, issue.path);
    const { trace, exact } = traceAt(resolved.trace, issue.path);
    const path = exact ? trace.path : joinPath(trace.path, String(issue.path.at(-1)));
    const code: ProblemCode = exact ? 'bad-value' : 'missing';
    return [{ code, file, ...ruler(trace.offset), path, found: describeFound(found, issue), expected: issue.message, build }];
  });
}

/** Of a choice of forms, the complaints of the one that the author evidently meant; null when none is evident. */
function innerIssues(issue: Issue & { code: 'invalid_union' }): readonly Issue[] | null {
  const meant = issue.errors.find(
    (errors) => errors.length > 0 && errors.every((error) => error.code !== 'invalid_type' || error.path.length > 0),
  );
  return meant?.map((error) => ({ ...error, path: [...issue.path, ...error.path] })) ?? null;
}

function describeFound(value: PlainValue | undefined, issue: Issue): string {
  if (issue.code === 'too_big' && Array.isArray(value)) return `${value.length} entries`;
  if (issue.code === 'too_big' && typeof value === 'string') return `${value.length} characters`;
  if (Array.isArray(value) && value.length === 0) return 'an empty list';
  return describe(value);
}

function unknownKeys(
  issue: Issue & { code: 'unrecognized_keys' },
  resolved: Resolved,
  file: string,
  ruler: Ruler,
  build: string,
): Problem[] {
  const { trace } = traceAt(resolved.trace, issue.path);
  const known = issue.message.split(', ');
  return issue.keys.map((key) => {
    const meant = nearest(key, known);
    const expected = meant === null ? `one of ${issue.message}` : `"${meant}": did you mean that?`;
    return {
      code: 'unknown-key',
      file,
      ...ruler(trace.children.get(key)?.keyOffset ?? trace.offset),
      path: joinPath(trace.path, key),
      found: `the key "${key}"`,
      expected,
      build,
    };
  });
}

function valueAt(value: PlainValue, path: readonly PropertyKey[]): PlainValue | undefined {
  let here: PlainValue | undefined = value;
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    if (Array.isArray(here)) here = (here as readonly PlainValue[])[Number(key)];
    else here = Object.hasOwn(here, key) ? (here as Readonly<Record<string, PlainValue>>)[String(key)] : undefined;
  }
  return here;
}
