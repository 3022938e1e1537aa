import type * as Plot from '@observablehq/plot';
import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import type { Table } from '../../review/table.ts';
import { DataTable } from './data-table.tsx';
import { Folded } from './folded.tsx';
import { drawInTurn } from './in-turn.ts';
import { useWording } from './words/words.ts';

export type PlotLibrary = typeof Plot;
/** Draws for a width in pixels: an SVG, or several to stand one below the other where one would take too long. */
export type Draw = (plot: PlotLibrary, width: number) => Element | Generator<Element>;

/** The one load of the drawing library; the review's other parts do without it. */
let library: Promise<PlotLibrary> | null = null;
export const plotLibrary = (): Promise<PlotLibrary> => (library ??= import('@observablehq/plot'));

/** A picture that says what is seen, with its table behind it. */
export function Picture({
  title,
  note,
  draw,
  table,
  whole,
  children,
}: {
  readonly title: string;
  readonly note?: string | undefined;
  readonly draw: Draw;
  /** Made when somebody unfolds it. */
  readonly table: () => Table;
  readonly whole?: () => Promise<Table>;
  readonly children?: ReactNode;
}) {
  const { page } = useWording();
  return (
    <figure className="review-figure">
      <figcaption>
        <h3>{title}</h3>
        {note === undefined ? null : <p className="small quiet">{note}</p>}
      </figcaption>
      {children}
      <Drawing draw={draw} label={title} />
      <Folded summary={page.table.behind}>{() => <DataTable table={table()} {...(whole === undefined ? {} : { whole })} />}</Folded>
    </figure>
  );
}

/** The drawing alone: drawn anew when its data or its width change. Its colours are the page's tokens, so paper gets ink on white. */
export function Drawing({
  draw,
  label,
  least = 200,
}: {
  readonly draw: Draw;
  readonly label: string;
  /** Narrower than this it is not drawn: the page is still finding its shape. */ readonly least?: number;
}) {
  const holder = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = holder.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.round(entry?.contentRect.width ?? 0)));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  useEffect(() => {
    if (width < least) return;
    let isCurrent = true;
    let leave = (): void => undefined;
    void plotLibrary().then((plot) => {
      const element = holder.current;
      if (isCurrent && element !== null) leave = drawInTurn(partsInto(element, draw, plot, width));
    });
    return () => {
      isCurrent = false;
      leave();
    };
  }, [draw, width, least]);
  return <div ref={holder} className="review-drawing" tabIndex={0} role="img" aria-label={label} />;
}

/** Each part takes the place of the one drawn before, so that a picture that changes is never gone. */
function* partsInto(holder: Element, draw: Draw, plot: PlotLibrary, width: number): Generator<undefined> {
  const drawn = draw(plot, width);
  let place = 0;
  for (const part of drawn instanceof Element ? [drawn] : drawn) {
    // A group may carry no name of its own (ARIA 1.2); the title and the table behind say what is seen.
    for (const group of part.querySelectorAll('g[aria-label]')) group.removeAttribute('aria-label');
    const before = holder.children[place];
    if (before === undefined) holder.append(part);
    else before.replaceWith(part);
    place += 1;
    yield;
  }
  while (holder.children.length > place) holder.lastElementChild?.remove();
}
