/** Branded plain numbers, so that newton metres and degrees cannot be swapped by mistake. */
declare const unit: unique symbol;
export type Quantity<U extends string> = number & { readonly [unit]: U };

export type NewtonMetres = Quantity<'N·m'>;
export type Newtons = Quantity<'N'>;
export type Degrees = Quantity<'°'>;
export type Millimetres = Quantity<'mm'>;
export type SquareMillimetres = Quantity<'mm²'>;
export type Megapascals = Quantity<'MPa'>;

/** The torque units the trade uses; each is written the way it is shown. */
export const torqueUnits = ['N·m', 'lbf·ft', 'lbf·in', 'kgf·m', 'kgf·cm', 'ozf·in', 'daN·m'] as const;
export type TorqueUnit = (typeof torqueUnits)[number];

/** A torque as its source wrote it. It is never replaced by a conversion of itself. */
export interface Torque {
  readonly value: number;
  readonly unit: TorqueUnit;
}

/** How far the source lets the torque stray: absolute, in the torque's own unit. */
export interface TorqueBand {
  readonly minus: number;
  readonly plus: number;
}
