import { describe, expect, it } from 'vitest';
import { everyRun } from '../../src/review/questions/selection.ts';
import { faultSentences, makeReview } from '../../src/review/review.ts';
import { stepsTable } from '../../src/review/tables.ts';
import type { Table } from '../../src/review/table.ts';
import { tableAsCsv } from '../../src/review/table.ts';
import { reviewWords } from '../../src/review/words/words.ts';
import { carriedOut, readLogs, runOf, signedOff, textOf } from './logs.ts';

const runs = [1, 2, 3].map((number) =>
  textOf(runOf([...carriedOut('first', 10 * number), ...carriedOut('second', 62), ...signedOff], { job: `job-${number}` })),
);
const read = readLogs({ 'a.jsonl': `${runs.join('')}not a line\n` });
const review = makeReview(read, read.report);
const en = reviewWords('en');
const fr = reviewWords('fr');

/** No line is broken between a number and its unit. */
const together = (text: string): string => text.replaceAll(' ', '\u00a0');

describe('the words of the review', () => {
  it('write figures as the language does', () => {
    expect([en.duration(8.44), fr.duration(8.44)]).toEqual(['8.4 s', '8,4 s'].map(together));
    expect([en.duration(220), en.duration(3900), en.duration(59.6)]).toEqual(['3 min 40 s', '1 h 05 min', '1 min 00 s'].map(together));
    expect([en.percent(0.0316), fr.percent(0.0316), fr.percent(0.184)]).toEqual(['3.2 %', '3,2 %', '18 %'].map(together));
    expect([en.clock(7.25), fr.clock(7.25), en.clock(3905)]).toEqual(['0:07.3', '0:07,3', '1:05:05']);
    expect([7, 999, 1000, 155_821, 5_023_075].map(en.whole)).toEqual(['7', '999', '1,000', '155,821', '5,023,075']);
    expect([fr.whole(155_821), fr.runs(2600)]).toEqual(['155\u202f821', '2\u202f600 passages']);
  });

  it('count one and several', () => {
    expect([en.runs(0), en.runs(1), en.runs(2)]).toEqual(['0 runs', '1 run', '2 runs']);
    expect([fr.runs(0), fr.runs(1), fr.runs(2)]).toEqual(['0 passage', '1 passage', '2 passages']);
    expect([en.listed(['a', 'b', 'c']), fr.listed(['a', 'b', 'c'])]).toEqual(['a, b and c', 'a, b et c']);
  });

  it('say that three runs are few, in the language asked for', () => {
    const caution = (language: 'en' | 'fr') => review.ask({ view: 'overview' }, { filter: everyRun, codes: false, language }).cautions[0];
    expect(caution('en')).toBe('Only 3 signed runs: too few for an interval around a median. Take everything here as a first impression.');
    expect(caution('fr')).toContain('Seulement 3 passages signés');
  });

  it('tell what was wrong with the logs', () => {
    const { faults } = review.facts();
    expect(faultSentences(faults, en)).toEqual(['1 line: not readable, left out.']);
    expect(faultSentences(faults, fr)).toEqual(['1 ligne : contenu illisible, écarté.']);
  });

  it('read a sheet aloud without signs that a voice stumbles over', () => {
    const spoken = (language: 'en' | 'fr') =>
      review
        .ask({ view: 'sheet', person: review.facts().people[0]!.person }, { filter: everyRun, codes: false, language })!
        .spoken.join(' ');
    expect(spoken('en')).toContain('Feedback for Ada Quern, from 3 runs.');
    expect(spoken('fr')).toContain('Retour pour Ada Quern, d’après 3 passages.');
    for (const text of [spoken('en'), spoken('fr')]) expect(text).not.toMatch(/[“”«»%]|\d s\b|\d min\b/);
  });

  it('head the tables', () => {
    const { steps } = review.ask(
      { view: 'steps', procedure: 'bench', reference: null },
      { filter: everyRun, codes: false, language: 'fr' },
    );
    expect(tableAsCsv(stepsTable(steps, 'bench', null, fr), fr)).toMatch(/^Étape;Quoi;Passages;Médiane \(s\);/);
    expect(tableAsCsv(stepsTable(steps, 'bench', null, en), en)).toMatch(/^Step,What,Runs,Median \(s\),/);
  });

  it('write a table as spreadsheets of the language open it, and never as a formula', () => {
    const table: Table = {
      name: 'times',
      title: '',
      columns: [
        { label: 'Who', kind: 'text' },
        { label: 'Time', kind: 'time' },
      ],
      rows: [
        ['=1+1; "x"', 1.5],
        ['Ada, Bo', null],
      ],
      note: null,
    };
    expect(tableAsCsv(table, en)).toBe('Who,Time (s)\r\n"\'=1+1; ""x""",1.5\r\n"Ada, Bo",\r\n');
    expect(tableAsCsv(table, fr)).toBe('Who;Time (s)\r\n"\'=1+1; ""x""";1,5\r\n"Ada, Bo";\r\n');
  });
});

describe('what is said of very few', () => {
  const few = readLogs({
    'few.jsonl': ['North', 'South', 'South']
      .map((group, index) =>
        textOf(
          runOf([...carriedOut('first', 30), ...signedOff], {
            job: `few-${index}`,
            group,
            person: `Person ${index}`,
            wall: Date.UTC(2025, index, 3),
          }),
        ),
      )
      .join(''),
  });
  const overview = makeReview(few, few.report).ask({ view: 'overview' }, { filter: everyRun, codes: false, language: 'en' });

  it('gives groups of one and two no interval', () => {
    expect(overview.groups.map(({ ratio }) => ratio)).toEqual([null]);
  });

  it('says no percentage of nothing, and that there are too few runs', () => {
    expect(overview.trendSentence).toBe(
      'A run in 2025-03 took as long as one in 2025-01, at equal procedure and build. One of the two months has too few runs to say more.',
    );
  });
});
