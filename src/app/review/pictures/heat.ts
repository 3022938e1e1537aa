import type { RenderFunction } from '@observablehq/plot';
import type { HeatMap } from '../../../review/questions/stuck.ts';
import { stepLabel } from '../../../review/questions/asking.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame } from './shared.ts';

/** What is within a sixth of the expected stays plain; beyond it the fill grows with the logarithm, full at twice or half. */
const plain = Math.log2(7 / 6);

/** Blue for quicker, orange for slower, the panel's own colour for as expected. */
export function heatFill(ratio: number): string {
  const amount = Math.max(-1, Math.min(1, Math.log2(ratio)));
  if (Math.abs(amount) <= plain) return 'var(--review-plain)';
  // In steps of 5 %: nobody tells finer ones apart, and what is filled alike is drawn at one go.
  const share = Math.round(((Math.abs(amount) - plain) / (1 - plain)) * 15 + 4.4) * 5;
  return `color-mix(in oklab, ${amount > 0 ? colours.other : colours.one} ${share}%, var(--review-plain))`;
}

/** More rows than this are no picture any more. */
export const mostRows = 40;

/** People against steps. What is far from expected carries its figure, so that colour is not all there is. */
export function heatPicture(map: HeatMap, { page, own }: Wording): Draw {
  return (plot, width) => {
    const cell = Math.max(22, Math.min(44, (width - 130) / Math.max(1, map.steps.length)));
    const fullWidth = Math.max(width, map.steps.length * cell + 130);
    const called = new Map(map.people.map((person) => [person.person, person.called]));
    const names = new Map(map.steps.map((step) => [step.step, step]));
    const cells = map.cells.map((one) => ({
      ...one,
      label: one.ratio >= 1.4 || one.ratio <= 0.71 ? own.number(one.ratio, 1) : '',
      told: `${called.get(one.person) ?? ''}\n${stepLabel(names.get(one.step) ?? { number: '', say: '' }, 60)}\n${page.people.tip(own.clock(one.median), own.clock(one.expected), one.runs)}`,
    }));
    const svg = plot.plot(
      frame(fullWidth, {
        height: map.people.length * 25 + 50,
        marginLeft: 118,
        marginTop: 34,
        marginRight: 8,
        marginBottom: 8,
        x: { type: 'band', domain: map.steps.map(({ step }) => step), padding: 0.06, axis: null },
        y: { type: 'band', domain: map.people.map(({ person }) => person), padding: 0.06, axis: null },
        marks: [
          plot.axisX({
            anchor: 'top',
            tickFormat: (step: number) => names.get(step)?.number ?? '',
            tickSize: 0,
            label: page.people.axis,
            labelAnchor: 'left',
          }),
          plot.axisY({ tickFormat: (person: number) => called.get(person) ?? '', tickSize: 0, label: null }),
          filledCells(cells),
          plot.text(
            cells.filter(({ label }) => label !== ''),
            {
              x: 'step',
              y: 'person',
              text: 'label',
              fill: (one: (typeof cells)[number]) => (Math.abs(Math.log2(one.ratio)) > 0.62 ? colours.ground : colours.ink),
              fontWeight: 650,
              fontSize: 11,
            },
          ),
        ],
      }),
    );
    // The SVG is wider than the page where there are many steps; its holder scrolls.
    svg.style.maxWidth = 'none';
    return svg;
  };
}

interface ToldCell {
  readonly step: number;
  readonly person: number;
  readonly ratio: number;
  readonly told: string;
}

const svgNames = 'http://www.w3.org/2000/svg';

/**
 * The cells as one path for each fill. Two thousand elements, each with a colour of its own to mix, would stop the page for longer than anybody
 * should feel. What a cell has to tell is put where the browser looks for it when a pointer comes over it.
 */
function filledCells(cells: readonly ToldCell[]): RenderFunction {
  return (_, { x, y, scales }) => {
    const wide = scales.x?.bandwidth ?? 0;
    const high = scales.y?.bandwidth ?? 0;
    const placed = cells.map((cell) => ({ ...cell, left: Number(x?.(cell.step)), top: Number(y?.(cell.person)) }));
    const shapes = new Map<string, string[]>();
    for (const { ratio, left, top } of placed) {
      const fill = heatFill(ratio);
      const shape = `M${(left + 1.5).toFixed(1)},${(top + 1.5).toFixed(1)}h${(wide - 3).toFixed(1)}v${(high - 3).toFixed(1)}h${(3 - wide).toFixed(1)}z`;
      const list = shapes.get(fill);
      if (list === undefined) shapes.set(fill, [shape]);
      else list.push(shape);
    }
    const group = document.createElementNS(svgNames, 'g');
    const title = document.createElementNS(svgNames, 'title');
    group.append(title);
    for (const [fill, list] of shapes) {
      const path = document.createElementNS(svgNames, 'path');
      path.setAttribute('d', list.join(''));
      // The stroke rounds the corners.
      path.setAttribute('style', `fill: ${fill}; stroke: ${fill}; stroke-width: 3px; stroke-linejoin: round`);
      group.append(path);
    }
    group.addEventListener('pointermove', ({ clientX, clientY }) => {
      const frame = group.ownerSVGElement?.getBoundingClientRect();
      const [atX, atY] = [clientX - (frame?.left ?? 0), clientY - (frame?.top ?? 0)];
      const under = placed.find(({ left, top }) => atX >= left && atX <= left + wide && atY >= top && atY <= top + high);
      title.textContent = under?.told ?? '';
    });
    return group;
  };
}
