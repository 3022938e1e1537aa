import { circlePlaces, clockOfPlaces, gridPlaces, orderPlaces, placeNames } from '../torque/sequences.ts';
import type { FastenerGroup } from './format.ts';
import type { WrittenLayout } from './notation.ts';
import type { OrderPattern, PlannedPosition } from './plan-types.ts';

/** Where a group's fasteners are, what they are called, and the orders in which to take them. */
export interface PlacedGroup {
  readonly positions: readonly PlannedPosition[];
  readonly order: readonly number[];
  /** For the last round, when each has its torque and balance no longer matters. */
  readonly checkOrder: readonly number[];
}

export type Placer = (group: FastenerGroup) => PlacedGroup;

/** Long procedures repeat the same few patterns, so each is worked out once. */
export function makePlacer(): Placer {
  const known = new Map<string, PlacedGroup>();
  return (group) => {
    const key = JSON.stringify([group.count, group.order, group.layout, group.positions]);
    const placed = known.get(key) ?? placeGroup(group);
    known.set(key, placed);
    return placed;
  };
}

function placeGroup(group: FastenerGroup): PlacedGroup {
  const layout = group.layout ?? usualLayout(group.count, group.order);
  const places = placesOf(layout, group.count);
  const clocks = clocksOf(layout, places, group.order);
  const names = group.positions.length > 0 ? group.positions : placeNames(places);
  const order = orderPlaces(group.order, places);
  const round = layout.kind === 'circle' || layout.kind === 'clock' || layout.kind === 'points';
  return {
    positions: places.map(({ x, y }, index) => ({ name: names[index] ?? `number ${index + 1}`, clock: clocks[index] ?? null, x, y })),
    order,
    checkOrder: group.order !== 'listed' && round ? orderPlaces('circular', places) : orderPlaces('listed', places),
  };
}

function usualLayout(count: number, order: OrderPattern): WrittenLayout {
  return count > 2 && order !== 'listed' ? { kind: 'circle', from: 12 } : { kind: 'line', down: false };
}

function placesOf(layout: WrittenLayout, count: number): readonly { readonly x: number; readonly y: number }[] {
  switch (layout.kind) {
    case 'circle':
      return layout.from === 12 || count === 1 ? circlePlaces(count) : hoursOfCircle(layout.from, count).map(placeAtHour);
    case 'clock':
      return layout.hours.map(placeAtHour);
    case 'grid':
      return gridPlaces(layout.rows, layout.columns);
    case 'line':
      return layout.down ? gridPlaces(count, 1) : gridPlaces(1, count);
    case 'points':
      return layout.points.map(([x, y]) => ({ x, y }));
  }
}

function clocksOf(
  layout: WrittenLayout,
  places: readonly { readonly x: number; readonly y: number }[],
  order: OrderPattern,
): readonly (number | null)[] {
  switch (layout.kind) {
    case 'circle':
      return places.length === 1 ? [null] : hoursOfCircle(layout.from, places.length).map(nearestHalfHour);
    case 'clock':
      return layout.hours;
    case 'points':
      return order === 'cross' || order === 'circular' || order === 'draw-up' ? clockOfPlaces(places) : [];
    case 'grid':
    case 'line':
      // A clock position says nothing about places in rows.
      return [];
  }
}

function hoursOfCircle(from: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => from + (12 * index) / count);
}

function nearestHalfHour(hour: number): number {
  const halves = Math.round(hour * 2) % 24;
  return halves === 0 ? 12 : halves / 2;
}

function placeAtHour(hour: number): { readonly x: number; readonly y: number } {
  const angle = (hour * Math.PI) / 6;
  const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
  return { x: rounded(0.5 + 0.45 * Math.sin(angle)), y: rounded(0.5 - 0.45 * Math.cos(angle)) };
}
