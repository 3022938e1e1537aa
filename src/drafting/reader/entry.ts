/** What stands at that place of a list that is known to be long enough. Throws where it is not: that is a fault of ours. */
export function entry<T>(list: ArrayLike<T>, index: number): T {
  const one = list[index];
  if (one === undefined) throw new RangeError(`Nothing stands at ${index} of ${list.length}.`);
  return one;
}
