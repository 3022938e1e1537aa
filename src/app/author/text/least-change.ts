/** The one piece that differs, so that cursors and marks elsewhere stay where they are. */
export function leastChange(old: string, next: string): { readonly from: number; readonly to: number; readonly insert: string } {
  const most = Math.min(old.length, next.length);
  let from = 0;
  while (from < most && old.charCodeAt(from) === next.charCodeAt(from)) from++;
  let tail = 0;
  while (tail < most - from && old.charCodeAt(old.length - 1 - tail) === next.charCodeAt(next.length - 1 - tail)) tail++;
  return { from, to: old.length - tail, insert: next.slice(from, next.length - tail) };
}
