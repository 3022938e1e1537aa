import { useState } from 'react';
import type { Filter } from '../../review/questions/selection.ts';
import { everyRun } from '../../review/questions/selection.ts';
import { useDesk } from './desk.ts';
import { useInTurn } from './use-in-turn.ts';
import type { Wording } from './words/words.ts';
import { useWording } from './words/words.ts';

/** Which runs to look at, and whether people go by name or by code. */
export function Filters({
  filter,
  onChange,
  codes,
  onCodes,
}: {
  readonly filter: Filter;
  readonly onChange: (filter: Filter) => void;
  readonly codes: boolean;
  readonly onCodes: (codes: boolean) => void;
}) {
  const { facts } = useDesk();
  const wording = useWording();
  const { page, own } = wording;
  const words = page.filters;
  const [isOpen, setOpen] = useState(false);
  const set = (part: Partial<Filter>): void => onChange({ ...filter, ...part });
  const isFiltered = JSON.stringify(filter) !== JSON.stringify(everyRun);
  return (
    <section className="review-filters" aria-label={words.label}>
      <div className="row review-filters-top">
        <p className="small">{inWords(filter, codes, facts.people, wording)}</p>
        <button type="button" className="no-print" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? words.close : words.open}
        </button>
        {isFiltered ? (
          <button type="button" className="no-print" onClick={() => onChange(everyRun)}>
            {words.allRuns}
          </button>
        ) : null}
        <label className="check no-print">
          <input type="checkbox" checked={codes} onChange={({ target }) => onCodes(target.checked)} />
          {words.codes}
        </label>
        <button type="button" className="no-print" onClick={() => print()}>
          {page.print}
        </button>
      </div>
      {isOpen ? (
        <div className="review-filter-fields no-print">
          <Choice
            label={words.procedure}
            all={words.allProcedures}
            value={filter.procedures[0] ?? ''}
            options={facts.procedures.map(({ id, title, runs }) => [id, words.withRuns(title === '' ? id : title, runs)])}
            onChoose={(id) => set({ procedures: id === '' ? [] : [id] })}
          />
          <Choice
            label={words.build}
            all={words.allBuilds}
            value={filter.builds[0] ?? ''}
            options={facts.builds.map((build) => [build, build])}
            onChoose={(build) => set({ builds: build === '' ? [] : [build] })}
          />
          <Choice
            label={words.group}
            all={words.allGroups}
            value={keyOf(filter.groups)}
            options={facts.groups.map((group, index) => [String(index), group ?? own.noGroup])}
            onChoose={(index) => set({ groups: index === '' ? [] : [facts.groups[Number(index)] ?? null] })}
          />
          <Choice
            label={words.person}
            all={words.everybody}
            value={personKey(filter.people, facts.people)}
            options={facts.people.map(({ person, name, code }) => [String(person), name === null ? own.nobody : codes ? code : name])}
            onChoose={(person) =>
              set({ people: person === '' ? [] : [facts.people.find((one) => String(one.person) === person)?.name ?? null] })
            }
          />
          <label>
            {words.from}
            <input
              type="date"
              value={filter.from ?? ''}
              min={facts.from ?? undefined}
              max={facts.to ?? undefined}
              onChange={({ target }) => set({ from: target.value === '' ? null : target.value })}
            />
          </label>
          <label>
            {words.to}
            <input
              type="date"
              value={filter.to ?? ''}
              min={facts.from ?? undefined}
              max={facts.to ?? undefined}
              onChange={({ target }) => set({ to: target.value === '' ? null : target.value })}
            />
          </label>
          <label>
            {words.skipFirst}
            <input
              type="number"
              min={0}
              max={99}
              value={filter.skipFirst}
              onChange={({ target }) => set({ skipFirst: Math.max(0, Math.min(99, Math.round(Number(target.value)))) })}
            />
          </label>
        </div>
      ) : null}
    </section>
  );

  function keyOf(groups: Filter['groups']): string {
    return groups.length === 0 ? '' : String(facts.groups.indexOf(groups[0] ?? null));
  }
}

type People = readonly { readonly person: number; readonly name: string | null; readonly code: string }[];

function personKey(wanted: Filter['people'], people: People): string {
  if (wanted.length === 0) return '';
  return String(people.find(({ name }) => name === wanted[0])?.person ?? '');
}

/** The filters as a sentence: it stands on paper too. */
function inWords(filter: Filter, codes: boolean, people: People, { page, own }: Wording): string {
  const words = page.filters;
  const person = filter.people.length === 0 ? null : people.find(({ name }) => name === filter.people[0]);
  const parts = [
    filter.procedures.length === 0 ? words.allProcedures : filter.procedures.join(', '),
    filter.builds.length === 0 ? null : words.inBuild(filter.builds.join(', ')),
    filter.groups.length === 0 ? null : words.inGroup(filter.groups.map((group) => group ?? own.noGroup).join(', ')),
    person === null || person === undefined ? null : person.name === null ? own.nobody : codes ? person.code : person.name,
    filter.from === null ? null : words.since(filter.from),
    filter.to === null ? null : words.until(filter.to),
    filter.skipFirst === 0 ? null : words.without(filter.skipFirst),
  ];
  return parts.filter((part) => part !== null).join(', ');
}

/** Hundreds of people are as many elements: all at once would hold the page up. */
const optionsAtOnce = 100;

export function Choice({
  label,
  all,
  value,
  options,
  onChoose,
}: {
  readonly label: string;
  readonly all: string | null;
  readonly value: string;
  readonly options: readonly (readonly [value: string, text: string])[];
  readonly onChoose: (value: string) => void;
}) {
  const { shown } = useInTurn(options.length, optionsAtOnce);
  return (
    <label>
      {label}
      <select value={value} onChange={({ target }) => onChoose(target.value)}>
        {all === null ? null : <option value="">{all}</option>}
        {options
          .filter(([key], index) => index < shown || key === value)
          .map(([key, text]) => (
            <option key={key} value={key}>
              {text}
            </option>
          ))}
      </select>
    </label>
  );
}

/** Which procedure a view of a single one shows; out of sight when the filters leave only one. */
export function ProcedureChoice() {
  const { facts, procedure, chooseProcedure, terms } = useDesk();
  const words = useWording().page.filters;
  if (terms.filter.procedures.length === 1 || facts.procedures.length === 1) {
    return <h3 className="review-procedure">{facts.procedures.find(({ id }) => id === procedure)?.title ?? procedure}</h3>;
  }
  return (
    <div className="review-choice">
      <Choice
        label={words.shown}
        all={null}
        value={procedure}
        options={facts.procedures.map(({ id, title, runs }) => [id, words.withRuns(title === '' ? id : title, runs)])}
        onChoose={chooseProcedure}
      />
    </div>
  );
}
