import type { SaidSentence } from './sentences.ts';

export interface Supply {
  readonly id: string;
  readonly name: string;
  readonly kind: 'part' | 'consumable' | 'support';
  readonly single: boolean;
  readonly sentence: number;
}

/** Words of the trade for what is used up, and for what holds a vehicle. Common practice. */
const consumables =
  /\b((?:(?:blue|red|copper|ceramic|gear|brake|transmission|penetrating|dielectric|moly|white) )?(?:thread ?lock(?:er)?|anti[- ]?seize|grease|sealer|sealant|gasket maker|brake cleaner|gear oil|oil|coolant|brake fluid|transmission fluid|fluid|soapy water|assembly lube))\b/gi;
const parts =
  /\bnew ((?:[a-z-]+ ){0,2}(?:gaskets?|seals?|o-rings?|o rings?|cotter pins?|split pins?|crush washers?|sealing washers?|copper washers?|washers?|clips?|tab washers?))\b/gi;
const supports =
  /\b((?:jack |axle |tall )?stands|transmission jack|trans jack|table lift|lift table|(?:four|two|2|4)[- ]post(?: lift)?|wheel chocks|chocks|column lifts|paddock stand|engine lift|hoist|ratchet strap)\b/gi;

/** Parts, consumables and supports that the talk names, each once. */
export function suppliesOf(sentences: readonly SaidSentence[]): readonly Supply[] {
  const found = new Map<string, Supply>();
  const look = (pattern: RegExp, kind: Supply['kind'], single: boolean) => {
    for (const { text, index } of sentences) {
      if (/\b(?:weighs|stories|old (?:oil|seals?)|oil (?:light|pan|filter))\b/i.test(text)) continue;
      for (const match of text.matchAll(pattern)) {
        const name = (match[1] ?? '').toLowerCase().replace(/\s+/g, ' ').trim();
        const id = name.replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '');
        if (id !== '' && !found.has(id)) found.set(id, { id, name, kind, single, sentence: index });
      }
    }
  };
  look(consumables, 'consumable', false);
  look(parts, 'part', true);
  look(supports, 'support', false);
  return [...found.values()];
}
