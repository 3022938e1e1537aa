import type { Arm } from '../torque/lever.ts';
import { formatNumber } from '../torque/numbers.ts';
import type { Plausibility } from '../torque/plausibility.ts';
import { effectOfCondition } from '../torque/preload.ts';
import type { Torque, TorqueBand } from '../torque/quantities.ts';
import { formatTorque } from '../torque/units.ts';
import type { WrenchChoice } from '../torque/wrench.ts';
import { wrenchNote } from '../phrasing/en/wrench-words.ts';
import { notSpecification } from './figure-reckon.ts';
import type { Figures, ThreadFigures } from './figure-reckon.ts';
import type { Terminal } from './verb.ts';

/** Prints the answer for people, and says what of it is calculated. */
export function tell(figures: Figures, arm: Arm | null, terminal: Terminal): void {
  const { source, setting, wrench, thread, plausibility } = figures;
  if (source) terminal.out(`Source: ${formatTorque(source.torque)}${bandText(source.torque, source.band)}`);
  for (const { exact, shown } of figures.conversions) {
    terminal.out(`Converted: ${formatTorque(shown)} (unrounded ${formatTorque(exact)})`);
  }
  if (setting && arm) {
    terminal.out(
      `Setting with an adapter of ${arm.centre} mm at ${arm.angle}° on a lever of ${arm.lever} mm, calculated: ${figureText(setting)}`,
    );
  }
  if (wrench) tellWrench(wrench, terminal);
  if (thread) tellThread(thread, terminal);
  if (plausibility) tellPlausibility(plausibility, terminal);
  if (setting ?? wrench ?? thread) terminal.out(notSpecification);
}

function tellWrench(wrench: WrenchChoice, terminal: Terminal): void {
  if (!wrench.fits) {
    terminal.out('The wrench will not do:');
    for (const reason of wrench.reasons) terminal.out(`  ${wrenchNote(reason)}`);
    return;
  }
  const { achieved, deviation, percentOfMax } = wrench;
  terminal.out(`Set the wrench to ${formatTorque(wrench.set)}, ${four(percentOfMax)} % of its maximum.`);
  terminal.out(
    `  Calculated at the fastener: ${figureText(achieved.nominal)}, ${deviation < 0 ? '−' : '+'}${four(Math.abs(deviation))} % off the target`,
  );
  terminal.out(`  Within the wrench’s tolerance: ${figureText(achieved.low)} to ${figureText(achieved.high)}`);
  for (const warning of wrench.warnings) terminal.out(`  Warning: ${wrenchNote(warning)}`);
}

function tellThread(thread: ThreadFigures, terminal: Terminal): void {
  terminal.out(
    `${thread.designation}, calculated for a friction of ${formatNumber(thread.friction)}: stress area ${four(thread.stressArea)} mm²`,
  );
  for (const of of thread.classes) {
    terminal.out(`  ${of.name}: proof load ${kilonewtons(of.proofLoad)}`);
    terminal.out(
      `    assembly by VDI 2230, using 90 % of the yield stress: preload ${kilonewtons(of.assemblyPreload)}, torque ${figureText(of.assemblyTorque)}`,
    );
  }
  const oil = effectOfCondition('black', 'lubricated');
  terminal.out(`  Oil on threads meant dry makes about ${four(oil.preload)} times the load at the same torque (K 0.18 for 0.30, Shigley).`);
}

const verdicts: Readonly<Record<Plausibility['verdict'], string>> = {
  plausible: 'plausible',
  'too-low': 'too low: it would leave the fastener as good as loose',
  'too-high': 'too high: beyond the proof load at the usual friction',
  impossible: 'impossible: beyond the proof load even on rough threads',
};

function tellPlausibility({ verdict, judgedBy, classAssumed, preload, share, range }: Plausibility, terminal: Terminal): void {
  const assumed = classAssumed ? ', assumed' : '';
  terminal.out(`The torque is ${verdicts[verdict]}.`);
  terminal.out(
    `  It makes about ${kilonewtons(preload)}, ${four(share * 100)} % of the proof load of ${judgedBy.name}${assumed} (friction 0.12).`,
  );
  terminal.out(`  Plausible for the thread: ${four(range.low)} to ${four(range.high)} N·m.`);
}

function bandText({ unit }: Torque, band: TorqueBand | null): string {
  if (band === null) return '';
  const even = band.minus === band.plus;
  return even ? ` ±${formatNumber(band.plus)} ${unit}` : ` −${formatNumber(band.minus)}/+${formatNumber(band.plus)} ${unit}`;
}

/** Calculated values to four figures: enough to check by hand, too few to look measured. */
function four(value: number): string {
  return formatNumber(Number(value.toPrecision(4)));
}

function figureText({ value, unit }: Torque): string {
  return `${four(value)} ${unit}`;
}

function kilonewtons(newtons: number): string {
  return `${four(newtons / 1000)} kN`;
}
