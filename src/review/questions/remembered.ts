/**
 * Works something out once for each asking, and keeps it for as long as the asking itself is kept: several answers under one filter rest on the
 * same figures. What it gives must not be changed by whoever gets it.
 */
export function remembered<Of extends object, Result>(work: (of: Of) => Result): (of: Of) => Result {
  const known = new WeakMap<Of, { readonly result: Result }>();
  return (of) => {
    const found = known.get(of) ?? { result: work(of) };
    known.set(of, found);
    return found.result;
  };
}
