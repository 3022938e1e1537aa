import type { Megapascals, Newtons } from './quantities.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';
import { stressArea } from './threads.ts';
import type { Thread } from './threads.ts';

/** What a property class promises, for one range of diameters. */
export interface PropertyClass {
  readonly name: string;
  /** Sp: the stress it must bear without lasting stretch. */
  readonly proofStress: Megapascals;
  /** Rp0.2 (or the lower yield stress). */
  readonly yieldStress: Megapascals;
  /** Rm: where it breaks. */
  readonly tensileStrength: Megapascals;
}

interface ClassRow {
  readonly name: string;
  /** Largest diameter in mm that the row is for. */
  readonly upTo: number;
  readonly proof: number;
  readonly yield: number;
  readonly tensile: number;
}

const megapascalsPerKsi = 6.894757293168;

/**
 * ISO 898-1 for steel: 8.8, 10.9 and 12.9 seen second-hand, the rest memory. ISO 3506-1 for stainless steel, where the proof
 * strength stands for both (memory). SAE J429 for inch grades, in ksi (memory).
 */
const rows: readonly ClassRow[] = [
  { name: '4.6', upTo: 39, proof: 225, yield: 240, tensile: 400 },
  { name: '4.8', upTo: 39, proof: 310, yield: 340, tensile: 420 },
  { name: '5.6', upTo: 39, proof: 280, yield: 300, tensile: 500 },
  { name: '5.8', upTo: 39, proof: 380, yield: 420, tensile: 520 },
  { name: '6.8', upTo: 39, proof: 440, yield: 480, tensile: 600 },
  { name: '8.8', upTo: 16, proof: 580, yield: 640, tensile: 800 },
  { name: '8.8', upTo: 39, proof: 600, yield: 660, tensile: 830 },
  { name: '9.8', upTo: 16, proof: 650, yield: 720, tensile: 900 },
  { name: '10.9', upTo: 39, proof: 830, yield: 940, tensile: 1040 },
  { name: '12.9', upTo: 39, proof: 970, yield: 1100, tensile: 1220 },
  { name: 'A2-50', upTo: 39, proof: 210, yield: 210, tensile: 500 },
  { name: 'A2-70', upTo: 24, proof: 450, yield: 450, tensile: 700 },
  { name: 'A4-70', upTo: 24, proof: 450, yield: 450, tensile: 700 },
  { name: 'A4-80', upTo: 24, proof: 600, yield: 600, tensile: 800 },
  ksi({ name: 'grade 2', upTo: 19.05, proof: 55, yield: 57, tensile: 74 }),
  ksi({ name: 'grade 2', upTo: 38.1, proof: 33, yield: 36, tensile: 60 }),
  ksi({ name: 'grade 5', upTo: 25.4, proof: 85, yield: 92, tensile: 120 }),
  ksi({ name: 'grade 5', upTo: 38.1, proof: 74, yield: 81, tensile: 105 }),
  ksi({ name: 'grade 8', upTo: 38.1, proof: 120, yield: 130, tensile: 150 }),
];

function ksi(row: ClassRow): ClassRow {
  return {
    ...row,
    proof: row.proof * megapascalsPerKsi,
    yield: row.yield * megapascalsPerKsi,
    tensile: row.tensile * megapascalsPerKsi,
  };
}

export const propertyClassNames: readonly string[] = [...new Set(rows.map(({ name }) => name))];

/** Reads "8.8", "class 10.9", "A2-70", "grade 8" for that thread's diameter. */
export function parsePropertyClass(text: string, thread: Thread): Reading<PropertyClass, 'unknown-class'> {
  const name = text
    .trim()
    .toLowerCase()
    .replace(/^(?:property )?class /u, '')
    .replace(/^(?:sae )?(?:gr(?:ade)?\.? ?)(?=\d)/u, 'grade ');
  const named = rows.filter((row) => row.name.toLowerCase() === name);
  const row = named.find(({ upTo }) => thread.diameter <= upTo + 1e-6);
  if (!row)
    return unread(
      'unknown-class',
      text,
      named.length > 0 ? `a thread of at most ${named.at(-1)?.upTo ?? 0} mm` : propertyClassNames.join(', '),
    );
  return read({
    name: row.name,
    proofStress: row.proof as Megapascals,
    yieldStress: row.yield as Megapascals,
    tensileStrength: row.tensile as Megapascals,
  });
}

/** Sp·As in N: the load it must bear without lasting stretch (ISO 898-1). */
export function proofLoad(thread: Thread, strength: PropertyClass): Newtons {
  return (strength.proofStress * stressArea(thread)) as Newtons;
}
