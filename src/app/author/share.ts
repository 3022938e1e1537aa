import { z } from '../../torque/zod.ts';

/** A procedure with all that belongs to it, in one file. */
export interface Shared {
  readonly name: string;
  readonly text: string;
  readonly versions: readonly { readonly number: number; readonly at: number; readonly note: string; readonly text: string }[];
  readonly recording: {
    readonly title: string;
    readonly at: number;
    readonly seconds: number;
    readonly transcript: string | null;
    /** Left out unless the author says so: a voice is personal. */
    readonly sound: { readonly type: string; readonly base64: string } | null;
  } | null;
}

/** 200 MB: an hour and more of talk. Our own limit. */
const longestShare = 200_000_000;
const text = z.string().max(4_000_000);
const schema = z.strictObject({
  'undertray-share': z.literal(1),
  name: z.string().min(1).max(120),
  text,
  versions: z.array(z.strictObject({ number: z.int().min(1), at: z.number(), note: z.string().max(2_000), text })).max(2_000),
  recording: z
    .strictObject({
      title: z.string().max(200),
      at: z.number(),
      seconds: z.number().min(0),
      transcript: text.nullable(),
      sound: z.strictObject({ type: z.string().regex(/^(?:audio|video)\/[\w.+-]+(?:;.{0,80})?$/), base64: z.string() }).nullable(),
    })
    .nullable(),
});

export const packShare = (shared: Shared): string => JSON.stringify({ 'undertray-share': 1, ...shared }, null, 1);

export type ReadShare =
  { readonly ok: true; readonly shared: Shared } | { readonly ok: false; readonly where: string; readonly expected: string };

/** Reads a shared file. It comes from somebody else: nothing but these fields gets through, and its YAML is read as any other. */
export function readShare(raw: string): ReadShare {
  if (raw.length > longestShare) return { ok: false, where: '', expected: `at most ${longestShare / 1_000_000} MB` };
  let found: unknown;
  try {
    found = JSON.parse(raw);
  } catch {
    return { ok: false, where: '', expected: 'JSON' };
  }
  const read = schema.safeParse(found);
  if (read.success) {
    const { 'undertray-share': _version, ...shared } = read.data;
    return { ok: true, shared };
  }
  const issue = read.error.issues[0];
  return { ok: false, where: issue?.path.join('.') ?? '', expected: issue?.message ?? '' };
}
