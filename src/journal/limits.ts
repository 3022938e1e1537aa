/** How much a record from somebody else may hold. Far beyond any real job; they stop hostile or broken files at the door. */
export const journalLimits = {
  /** Characters of one event's line. */
  eventLine: 65_536,
  /** Characters of a job's header line, which carries its plan. */
  headerLine: 16_000_000,
  /** Events of one job. */
  events: 200_000,
  /** Characters of an id. */
  id: 200,
  /** Characters of a name, a title, a unit. */
  name: 1_000,
  /** Characters of a sentence or a note. */
  text: 20_000,
  /** Entries in one list of a plan. */
  list: 20_000,
} as const;
