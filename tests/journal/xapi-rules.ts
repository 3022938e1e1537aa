/**
 * What a strict Learning Record Store asks of a statement: xAPI 1.0.3, part 2 (data) and part 3 (communication), as far as
 * statements of one agent about one activity go. From memory of the specification; what the app makes is also given to
 * @learninglocker/xapi-validation, in `published/log-formats`.
 */

type Problem = string;
type Fields = Readonly<Record<string, unknown>>;

/** Everything that is wrong with it; nothing when it may be stored. */
export function statementProblems(value: unknown): readonly Problem[] {
  if (!isFields(value)) return ['a statement is an object'];
  return [
    ...unknownKeys(value, 'statement', ['id', 'actor', 'verb', 'object', 'result', 'context', 'timestamp', 'version', 'attachments']),
    ...noNulls(value, 'statement'),
    ...check(typeof value['id'] === 'string' && uuid.test(value['id']), 'id: a UUID'),
    ...agentProblems(value['actor']),
    ...verbProblems(value['verb']),
    ...activityProblems(value['object'], 'object'),
    ...(value['result'] === undefined ? [] : resultProblems(value['result'])),
    ...(value['context'] === undefined ? [] : contextProblems(value['context'])),
    ...check(
      typeof value['timestamp'] === 'string' && timestamp.test(value['timestamp']),
      'timestamp: ISO 8601 with milliseconds and a zone',
    ),
  ];
}

/** What two statements with one id must agree in, not to be a conflict: everything that the client said. */
export function isSameStatement(one: unknown, other: unknown): boolean {
  return JSON.stringify(sorted(one)) === JSON.stringify(sorted(other));
}

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/iu;
// RFC 3339, without the "-00:00" that means an unknown zone.
const timestamp =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}(?:Z|\+(?:[01]\d|2[0-3]):[0-5]\d|-(?!00:00)(?:[01]\d|2[0-3]):[0-5]\d)$/u;
const duration =
  /^P(?!$)(?:\d+(?:\.\d+)?Y)?(?:\d+(?:\.\d+)?M)?(?:\d+(?:\.\d+)?D)?(?:T(?=\d)(?:\d+(?:\.\d+)?H)?(?:\d+(?:\.\d+)?M)?(?:\d+(?:\.\d{1,2})?S)?)?$/u;
const languageTag = /^[a-z]{2,3}(?:-[a-z0-9]{2,8})*$/iu;

function agentProblems(value: unknown): readonly Problem[] {
  if (!isFields(value)) return ['actor: an object'];
  const account = value['account'];
  const identifiers = ['mbox', 'mbox_sha1sum', 'openid', 'account'].filter((key) => value[key] !== undefined);
  return [
    ...unknownKeys(value, 'actor', ['objectType', 'name', 'mbox', 'mbox_sha1sum', 'openid', 'account']),
    ...check(value['objectType'] === undefined || value['objectType'] === 'Agent', 'actor: an agent'),
    ...check(identifiers.length === 1, 'actor: exactly one identifier'),
    ...check(
      isFields(account) && isIri(account['homePage']) && typeof account['name'] === 'string' && account['name'] !== '',
      'actor: a whole account',
    ),
  ];
}

function verbProblems(value: unknown): readonly Problem[] {
  if (!isFields(value)) return ['verb: an object'];
  return [
    ...unknownKeys(value, 'verb', ['id', 'display']),
    ...check(isIri(value['id']), 'verb: an IRI'),
    ...languageMap(value['display'], 'verb.display'),
  ];
}

function activityProblems(value: unknown, path: string): readonly Problem[] {
  if (!isFields(value)) return [`${path}: an object`];
  const definition = value['definition'];
  return [
    ...unknownKeys(value, path, ['objectType', 'id', 'definition']),
    ...check(value['objectType'] === undefined || value['objectType'] === 'Activity', `${path}: an activity`),
    ...check(isIri(value['id']), `${path}.id: an IRI`),
    ...(isFields(definition)
      ? [
          ...unknownKeys(definition, `${path}.definition`, ['name', 'description', 'type', 'moreInfo', 'extensions']),
          ...languageMap(definition['name'], `${path}.definition.name`),
          ...check(isIri(definition['type']), `${path}.definition.type: an IRI`),
        ]
      : []),
  ];
}

function resultProblems(value: unknown): readonly Problem[] {
  if (!isFields(value)) return ['result: an object'];
  const { success, completion, response } = value;
  return [
    ...unknownKeys(value, 'result', ['score', 'success', 'completion', 'response', 'duration', 'extensions']),
    ...check(success === undefined || typeof success === 'boolean', 'result.success: true or false'),
    ...check(completion === undefined || typeof completion === 'boolean', 'result.completion: true or false'),
    ...check(response === undefined || typeof response === 'string', 'result.response: text'),
    ...check(
      value['duration'] === undefined || (typeof value['duration'] === 'string' && duration.test(value['duration'])),
      'result.duration: ISO 8601',
    ),
    ...extensionProblems(value['extensions'], 'result'),
  ];
}

function contextProblems(value: unknown): readonly Problem[] {
  if (!isFields(value)) return ['context: an object'];
  const activities = isFields(value['contextActivities']) ? value['contextActivities'] : {};
  return [
    ...unknownKeys(value, 'context', [
      'registration',
      'instructor',
      'team',
      'contextActivities',
      'revision',
      'platform',
      'language',
      'statement',
      'extensions',
    ]),
    ...check(
      value['registration'] === undefined || (typeof value['registration'] === 'string' && uuid.test(value['registration'])),
      'context.registration: a UUID',
    ),
    ...check(typeof value['language'] === 'string' && languageTag.test(value['language']), 'context.language: a language tag'),
    ...unknownKeys(activities, 'context.contextActivities', ['parent', 'grouping', 'category', 'other']),
    ...Object.entries(activities).flatMap(([key, list]) =>
      Array.isArray(list)
        ? list.flatMap((entry: unknown) => activityProblems(entry, `context.contextActivities.${key}`))
        : [`${key}: a list`],
    ),
    ...extensionProblems(value['extensions'], 'context'),
  ];
}

function extensionProblems(value: unknown, path: string): readonly Problem[] {
  if (value === undefined) return [];
  return check(isFields(value) && Object.keys(value).every(isIri), `${path}.extensions: keys are IRIs`);
}

function languageMap(value: unknown, path: string): readonly Problem[] {
  const isMap = isFields(value) && Object.entries(value).every(([key, text]) => languageTag.test(key) && typeof text === 'string');
  return check(isMap, `${path}: a language map`);
}

/** Nulls are not allowed outside extensions. */
function noNulls(value: unknown, path: string): readonly Problem[] {
  if (value === null) return [`${path}: null`];
  if (Array.isArray(value)) return value.flatMap((entry, index) => noNulls(entry, `${path}[${index}]`));
  if (!isFields(value)) return [];
  return Object.entries(value).flatMap(([key, entry]) => (key === 'extensions' ? [] : noNulls(entry, `${path}.${key}`)));
}

function unknownKeys(value: Fields, path: string, known: readonly string[]): readonly Problem[] {
  return Object.keys(value).flatMap((key) => (known.includes(key) ? [] : [`${path}.${key}: not a property`]));
}

function isIri(value: unknown): boolean {
  return typeof value === 'string' && /^[a-z][a-z0-9+.-]*:[^\s<>"{}|\\^`]+$/iu.test(value);
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function check(isFine: boolean, problem: Problem): readonly Problem[] {
  return isFine ? [] : [problem];
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (!isFields(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([key, entry]) => [key, sorted(entry)]),
  );
}
