import type * as Plot from '@observablehq/plot';
import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import type { Table } from '../../review/table.ts';
import { DataTable } from './data-table.tsx';
import { Folded } from './folded.tsx';
import { useWording } from './words/words.ts';

export type PlotLibrary = typeof Plot;
/** Draws for a width in pixels. What it returns is an SVG, or a figure with a legend and an SVG. */
export type Draw = (plot: PlotLibrary, width: number) => Element;

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
    let timer = 0;
    void plotLibrary().then((plot) => {
      // A task of its own: with the page's other work it would hold up what a hand does meanwhile.
      timer = window.setTimeout(() => {
        const element = holder.current;
        if (!isCurrent || element === null) return;
        const drawn = draw(plot, width);
        // A group may carry no name of its own (ARIA 1.2); the title and the table behind say what is seen.
        for (const part of drawn.querySelectorAll('g[aria-label]')) part.removeAttribute('aria-label');
        element.replaceChildren(drawn);
      });
    });
    return () => {
      isCurrent = false;
      clearTimeout(timer);
    };
  }, [draw, width, least]);
  return <div ref={holder} className="review-drawing" tabIndex={0} role="img" aria-label={label} />;
}
