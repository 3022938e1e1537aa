import { line } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { Spoken } from '../lines.ts';
import type { KitItem, KitKind } from '../../procedure/plan-types.ts';
import { ownText, text } from './text.ts';

/** Kinds whose names the plan makes, in English; the others are named by the author. */
const madeByPlan: readonly KitKind[] = ['wrench', 'angle gauge', 'drive', 'socket', 'bit', 'extension', 'joint', 'adapter'];

const size = String.raw`(?:(T?[\d./ ]+?(?: mm| inch)?) )?`;
const drive = String.raw`(?:, ([\d/]+) drive)?`;

/** The plan's own names, each as it is written there and as a French mechanic calls the thing. `$1` is the size, the last group the square. */
const forms: readonly (readonly [RegExp, (parts: readonly (string | undefined)[]) => string])[] = [
  [
    new RegExp(`^${size}(deep )?socket${drive}$`, 'u'),
    ([of, deep, square]) => `douille${deep === undefined ? '' : ' longue'}${sized(of)}${squared(square)}`,
  ],
  [
    new RegExp(`^${size}(deep )?bihex socket${drive}$`, 'u'),
    ([of, deep, square]) => `douille douze pans${deep === undefined ? '' : ' longue'}${sized(of)}${squared(square)}`,
  ],
  [
    new RegExp(`^${size}(deep )?square socket${drive}$`, 'u'),
    ([of, deep, square]) => `douille carrée${deep === undefined ? '' : ' longue'}${sized(of)}${squared(square)}`,
  ],
  [new RegExp(`^${size}hex bit${drive}$`, 'u'), ([of, square]) => `embout six pans${sized(of)}${squared(square)}`],
  [
    new RegExp(`^${size}internal-serration bit${drive}$`, 'u'),
    ([of, square]) => `embout six lobes${of === undefined ? '' : ` ${of}`}${squared(square)}`,
  ],
  [new RegExp(`^slotted ${size}?bit${drive}$`, 'u'), ([of, square]) => `embout à fente${sized(of)}${squared(square)}`],
  [
    new RegExp(`^cross-head ${size}?bit${drive}$`, 'u'),
    ([of, square]) => `embout cruciforme${of === undefined ? '' : ` numéro ${of}`}${squared(square)}`,
  ],
  [new RegExp(`^slotted ${size}?screwdriver$`, 'u'), ([of]) => `tournevis à fente${sized(of)}`],
  [new RegExp(`^cross-head ${size}?screwdriver$`, 'u'), ([of]) => `tournevis cruciforme${of === undefined ? '' : ` numéro ${of}`}`],
  [new RegExp(`^${size}crowfoot${drive}$`, 'u'), ([of, square]) => `embout à fourche${sized(of)}${squared(square)}`],
  [
    new RegExp(`^${size}extension (?:at ([\\d.]+)°|for any angle)${drive}$`, 'u'),
    ([of, angle, square]) => `rallonge${sized(of)} ${angle === undefined ? 'à angle réglable' : `à ${angle}°`}${squared(square)}`,
  ],
  [new RegExp(`^${size}extension${drive}$`, 'u'), ([of, square]) => `rallonge${sized(of)}${squared(square)}`],
  [new RegExp(`^universal joint${drive}$`, 'u'), ([square]) => `cardan${squared(square)}`],
  [/^([\d/]+) drive ratchet$/u, ([square]) => `cliquet${squared(square).replace(',', '')}`],
  [/^([\d/]+) drive bar$/u, ([square]) => `barre${squared(square)}`],
  [/^([\d/]+) to ([\d/]+) step adapter$/u, ([from, to]) => `réducteur de carré ${from ?? ''} à ${to ?? ''}`],
  [/^angle gauge$/u, () => "mesureur d'angle"],
  [
    new RegExp(`^torque wrench for (.+?)(?: to (.+?))?${drive}$`, 'u'),
    ([low, high, square]) => `clé dynamométrique pour ${low ?? ''}${high === undefined ? '' : ` à ${high}`}${squared(square)}`,
  ],
  [/^(.+), set to (.+)$/u, ([name, settings]) => `${name ?? ''}, réglée à ${(settings ?? '').replace(/ and /u, ' et ')}`],
];

/** The name of a kit item in French. */
export function kitName(item: KitItem): Spoken {
  const made = madeByPlan.includes(item.kind) ? formed(item.name) : null;
  if (made !== null) return ownText(made);
  const fresh = item.kind === 'part' ? /^new (.+)$/u.exec(item.name)?.[1] : undefined;
  const named: Part = fresh === undefined ? text(item.name) : line`${text(fresh)}, pièce neuve`;
  return line`${named}`;
}

/** What would serve instead, which the plan names in English as well. */
export function insteadName(instead: string): Spoken {
  const together = /^(\d+) mm and (\d+) mm extensions together(?:, ([\d/]+) drive)?$/u.exec(instead);
  if (together !== null)
    return text(`rallonges de ${together[1] ?? ''} mm et de ${together[2] ?? ''} mm mises bout à bout${squared(together[3])}`);
  const stepped = /^([\d/]+) drive ratchet with a (.+ step adapter)$/u.exec(instead);
  if (stepped !== null) return text(`cliquet carré ${stepped[1] ?? ''} avec ${formed(stepped[2] ?? '') ?? ''}`);
  return text(formed(instead) ?? instead);
}

function formed(english: string): string | null {
  for (const [form, name] of forms) {
    const found = form.exec(english);
    if (found !== null) return name(found.slice(1));
  }
  return null;
}

function sized(of: string | undefined): string {
  return of === undefined ? '' : ` de ${of.replace(' inch', ' in')}`;
}

function squared(square: string | undefined): string {
  return square === undefined ? '' : `, carré ${square}`;
}
