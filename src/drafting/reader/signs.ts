/** What speaks for a value that the net or the rules or both put to a group; numbers from 0 to 1, mostly. */
export interface ReadSigns {
  /** Both say the same; or only the rules say it; or they say different values and this is the net's. */
  readonly agreed: number;
  readonly ruleOnly: number;
  readonly against: number;
  /** The rules count twice what the net does: 1 for theirs, -1 for the net's; and in how many other lots of the talk, up to three. */
  readonly doubled: number;
  readonly alsoDoubled: number;
  /** The net: that the number is of the field, and that it belongs there. */
  readonly is: number;
  readonly belongs: number;
  readonly shared: number;
  readonly copied: number;
  /** No number says it. */
  readonly implied: number;
  readonly parts: number;
  /** That it is a part of the whole, of a count by one number. */
  readonly part: number;
  readonly times: number;
  /** How much likelier it belongs here than to others; how often it is said in all, less one; how surely something else is said of it as well. */
  readonly ahead: number;
  readonly again: number;
  readonly otherwise: number;
  /** That the number holds nothing of fasteners or no longer holds; how likely another reading of its words is; that it is of that build. */
  readonly void: number;
  readonly rival: number;
  readonly ofBuild: number;
  /** Of count, size and torque, how many the lot lacks; it has no name; the rules know no such group; how much of the lot is in that group. */
  readonly missing: number;
  readonly nameless: number;
  readonly unruled: number;
  readonly overlap: number;
  /** Another group has the same size and the same torque, or shares the number. */
  readonly twin: number;
  readonly claimed: number;
  /** How sure the rules are of theirs, by their own signs. */
  readonly rule: number;
  /** How odd the torque is for the width of the head. */
  readonly odd: number;
}

/** What a value has where nothing speaks for it. */
export const noSigns: ReadSigns = {
  agreed: 0,
  ruleOnly: 0,
  against: 0,
  doubled: 0,
  alsoDoubled: 0,
  is: 0,
  belongs: 0,
  shared: 0,
  copied: 0,
  implied: 0,
  parts: 0,
  part: 0,
  times: 1,
  ahead: 0,
  again: 0,
  otherwise: 0,
  void: 0,
  rival: 0,
  ofBuild: 0,
  missing: 0,
  nameless: 0,
  unruled: 0,
  overlap: 0,
  twin: 0,
  claimed: 0,
  rule: 0,
  odd: 0,
};
