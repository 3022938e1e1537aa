import { describe, expect, it } from 'vitest';
import { intentNames, reasons } from '../../src/phrasing/intents.ts';
import { languages } from '../../src/phrasing/language.ts';
import { helpOrder } from '../../src/phrasing/lexicon.ts';
import { plainUnits, unitSymbol } from '../../src/phrasing/measure-units.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { torqueUnits } from '../../src/torque/quantities.ts';

describe.each(languages)('the lexicon in %s', (language) => {
  const { lexicon, units } = packFor(language);

  it('has a short button and a line of help for every intent', () => {
    for (const name of intentNames) {
      const { button, help } = lexicon.commands[name];
      expect(button.length, name).toBeGreaterThan(1);
      expect(button.length, button).toBeLessThanOrEqual(18);
      expect(help, name).toMatch(/^\p{Lu}.*\.$/u);
    }
    for (const reason of reasons) expect(lexicon.reasons[reason].button.length).toBeLessThanOrEqual(18);
  });

  it('gives no two intents the same button', () => {
    const buttons = intentNames.map((name) => lexicon.commands[name].button);
    expect(new Set(buttons).size).toBe(buttons.length);
  });

  it('teaches for a command with choices what one of the choices teaches', () => {
    expect(lexicon.scopes.step.taught).toBe(lexicon.commands.skip.taught);
    expect(reasons.map((reason) => lexicon.reasons[reason].taught)).toContain(lexicon.commands.reason.taught);
    expect(torqueUnits.map((unit) => lexicon.units[unit].taught)).toContain(lexicon.commands.unit.taught);
    expect(lexicon.numberCarriers[0]).toBe(lexicon.commands.number.taught);
    expect(lexicon.signCarriers[0]).toBe(lexicon.commands.sign.taught);
  });

  it('names every unit in one and in many, and hears both', () => {
    for (const unit of [...plainUnits, ...torqueUnits]) {
      for (const value of [1, 3]) expect(units.heard[unit].map((name) => name.toLowerCase())).toContain(units.after(value, unit));
    }
  });
});

describe('help', () => {
  it('has a place for every intent, once', () => {
    expect([...helpOrder].sort()).toEqual([...intentNames].sort());
  });
});

describe('units as they are written', () => {
  it.each([
    ['mm', 'mm'],
    ['Nm', 'N·m'],
    ['ft-lb', 'lbf·ft'],
    ['° C', '°C'],
    ['"', 'in'],
    ['per cent', '%'],
    ['microns', 'µm'],
    ['μm', 'µm'],
  ])('%s is %s', (written, unit) => {
    expect(unitSymbol(written)).toBe(unit);
  });

  it.each(['clicks', '', 'Mm', 'constructor'])('"%s" is none of them', (written) => {
    expect(unitSymbol(written)).toBeNull();
  });
});
