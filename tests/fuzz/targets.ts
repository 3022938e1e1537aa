import { readdirSync, readFileSync } from 'node:fs';
import { draftFile } from '../../src/drafting/draft-file.ts';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { calendarFile } from '../../src/journal/formats/calendar.ts';
import { csvFile } from '../../src/journal/formats/csv.ts';
import { xesFile } from '../../src/journal/formats/xes.ts';
import { readLog } from '../../src/journal/log-file.ts';
import { sheetHtml } from '../../src/journal/sheet/sheet.ts';
import { foldJob } from '../../src/job/fold.ts';
import { interpret } from '../../src/phrasing/interpret.ts';
import { intentNames } from '../../src/phrasing/intents.ts';
import { languages } from '../../src/phrasing/language.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import { makeIntake } from '../../src/review/intake/intake.ts';
import { formatCrib, parseCrib } from '../../src/torque/crib-file.ts';
import { emptyCrib } from '../../src/torque/crib.ts';

/** A kind of file that comes from other people, real ones to change, and all that the app does with one. */
export interface Target {
  readonly name: string;
  readonly seeds: readonly string[];
  /** How often it has its turn: whole procedures and logs take long, and short files find as much. */
  readonly share: number;
  /** Gives whatever ends up as markup in some document. Throws when something is wrong. */
  readonly use: (text: string) => readonly string[];
}

const at = (path: string) => new URL(`../../${path}`, import.meta.url);
const read = (path: string) => readFileSync(at(path), 'utf8');
const filesIn = (path: string, ending: RegExp) =>
  readdirSync(at(path))
    .filter((name) => ending.test(name))
    .map((name) => read(`${path}/${name}`));

/** As small as a procedure can be and still have something of everything. */
const small = `undertray: 1
id: small
title: Small job
vehicle: bench
builds: { K: one, M: two }
source: Invented.
invented: true
language: en
author: nobody
revision: 1
cautions: [{ signal: CAUTION, text: Mind your fingers. }]
parts: [{ id: gasket, name: gasket, count: 1, single use: true }]
stages:
  - id: all
    title: All
    steps:
      - id: bolts
        do: Tighten the bolts.
        uses: [gasket]
        fasteners:
          - { id: bolts, name: bolt, count: 4, layout: circle from 12, thread: M10x1.5, class: 8.8, drive: { build K: hex 16, build M: hex 17 }, square: 1/2, torque: 40 N·m ±2, order: cross, passes: [snug, 50%, 100%] }
        hold: [{ id: even, ask: Is it even?, if no: { go: bolts, advice: Again. } }]
        measure: [{ id: gap, name: gap, unit: mm, min: 1, max: 2 }]
        wait: { id: rest, name: rest, for: 2 min }
afterwards: [{ id: look, say: Look again., after: 24 h }]
`;

const crib = formatCrib({
  ...emptyCrib,
  name: 'Bench crib',
  others: [{ id: 'drift', name: 'Soft drift' }],
});

export const targets: readonly Target[] = [
  {
    name: 'small procedures',
    share: 6,
    seeds: [small],
    use: useProcedure,
  },
  { name: 'shipped procedures', share: 1, seeds: filesIn('procedures', /^(?:bench|brindle-b4-wheels).*\.yaml$/u), use: useProcedure },
  {
    name: 'logs',
    share: 2,
    // The frozen log's first lines: enough for a header with its plan and some of every kind of event.
    seeds: filesIn('tests/journal/frozen', /\.jsonl$/u).map((text) => text.split('\n').slice(0, 30).join('\n')),
    use: useLog,
  },
  {
    name: 'cribs',
    share: 6,
    seeds: [crib],
    use(text) {
      const parsed = parseCrib(text);
      if (parsed.ok && !parseCrib(formatCrib(parsed.crib)).ok) throw new Error('a crib that was read does not read again');
      return [];
    },
  },
  {
    name: 'transcripts',
    share: 4,
    seeds: filesIn('tests/drafting/corpus/known', /\.(?:vtt|srt|txt)$/u).map((text) => text.slice(0, 3000)),
    use(text) {
      const drafted = draftFile(draftFrom(readTranscript(text), { name: 'fuzz' }));
      // It may well be refused, for its open questions; it must not be unreadable as YAML.
      parseProcedure(drafted, 'draft.yaml');
      return [];
    },
  },
  {
    name: 'spoken words',
    share: 6,
    seeds: languages.flatMap((language) => Object.values(packFor(language).lexicon.commands).map(({ taught }) => taught)),
    use(text) {
      for (const language of languages)
        interpret([{ text, confidence: 0.9 }], {
          state: 'fastening',
          legal: intentNames,
          language,
          names: ['Alex'],
          measureUnit: 'mm',
          nameFirst: false,
        });
      return [];
    },
  },
];

function useProcedure(text: string): readonly string[] {
  const parsed = parseProcedure(text, 'fuzz.yaml');
  if (!parsed.ok) {
    if (parsed.problems.length === 0) throw new Error('refused without a problem');
    return [];
  }
  lintProcedure(parsed.file);
  return [...parsed.file.builds.keys()].slice(0, 2).flatMap((build) => {
    const planned = planJob(parsed.file, { build, crib: null, today: '2026-01-01', spokenUnit: null });
    if (!planned.ok) return [];
    for (const language of languages) {
      const { say } = packFor(language);
      for (const step of planned.plan.steps.slice(0, 12)) {
        say({ kind: 'step', step, mainSteps: 12 });
        for (const group of step.groups) say({ kind: 'torque', group, pass: 0, unit: 'lbf·ft' });
      }
    }
    return [sheetHtml({ job: 'fuzz', plan: planned.plan, events: [], faults: [] })];
  });
}

function useLog(text: string): readonly string[] {
  const intake = makeIntake();
  intake.open('fuzz.jsonl');
  intake.feed(new TextEncoder().encode(text));
  intake.close();
  intake.report();
  return readLog(text).flatMap(({ job, plan, events, faults }) => {
    const logged = [{ job: job ?? 'fuzz', plan, events }];
    const documents = [[...xesFile(logged)].join('')];
    [...csvFile(logged)].join('');
    calendarFile(logged);
    if (plan === null) return documents;
    foldJob(plan, events);
    return [...documents, sheetHtml({ job: job ?? 'fuzz', plan, events, faults })];
  });
}
