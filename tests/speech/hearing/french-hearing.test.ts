import { beforeAll, describe, expect, it } from 'vitest';
import { legalIn } from '../../../src/job/legal.ts';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { createHearing } from '../../../src/speech/hearing/hearing.ts';
import { optionsFor } from '../../../src/speech/hearing/language-options.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import type { BenchVoice } from '../../bench/voice/voices.ts';
import { listen, quickBlock } from '../../bench/voice/trial.ts';
import { inRoom, linda, spoken } from './clips.ts';
import { hearingModels } from './models.ts';

const belgian: BenchVoice = { name: 'espeak fr-be m3', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'fr-be+m3' };

let ear: Hearing;

beforeAll(async () => {
  ear = createHearing(await hearingModels('fr'), optionsFor.fr);
}, 60_000);

function heardIn(state: DialogueState, text: string, voice = belgian): string[] {
  const wish = { state, legal: legalIn[state], language: 'fr', names: [], maxCount: 8, nameFirst: false } as const;
  ear.setGrammar(grammarFor({ ...wish, measureUnit: state === 'measuring' ? 'mm' : null }));
  ear.reset();
  return listen(ear, inRoom(spoken(voice, text)), quickBlock).flatMap(({ event }) =>
    event.kind === 'heard' ? [event.alternatives[0]?.text ?? ''] : [],
  );
}

describe('French on the device', () => {
  it.each([
    ['fastening', 'opération faite'],
    ['fastening', 'couple de serrage'],
    ['waiting', 'durée restante'],
    ['stating', 'arrête arrête'],
    ['measuring', 'je lis quarante sept'],
  ] as const)('hears while %s: %s', (state, text) => {
    expect(heardIn(state, text)).toEqual([text]);
  });

  it('takes other talk, French or English, for nothing', () => {
    expect(heardIn('fastening', 'mon cousin a vendu sa vieille remorque samedi')).toEqual([]);
    expect(heardIn('fastening', 'il paraît que les trains roulent mal ce matin')).toEqual([]);
    expect(heardIn('fastening', 'she said the train was late as usual', linda)).toEqual([]);
  });
});
