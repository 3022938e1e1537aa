import { stringify } from 'yaml';
import type { Language } from '../../phrasing/language.ts';

/** What is asked before a new procedure is begun. */
export interface NewProcedure {
  readonly title: string;
  readonly vehicle: string;
  readonly author: string;
}

/** A name in the form of ids: "Refit the carrier" becomes "refit-the-carrier". */
export function slug(text: string): string {
  const words =
    text
      .normalize('NFD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .match(/[a-z0-9]+/g) ?? [];
  return words.join('-').slice(0, 50).replace(/-$/, '');
}

/** A file name that nothing else has: "refit.yaml", "refit-2.yaml". */
export function freeName(base: string, taken: readonly string[]): string {
  const stem = slug(base.replace(/\.ya?ml$/i, '')) || 'procedure';
  const names = function* () {
    yield `${stem}.yaml`;
    for (let number = 2; ; number++) yield `${stem}-${number}.yaml`;
  };
  for (const name of names()) if (!taken.includes(name)) return name;
  return `${stem}.yaml`;
}

/** A procedure to begin from: it reads without a fault, says what goes where, and claims no value. */
export function skeleton({ title, vehicle, author }: NewProcedure, language: Language): string {
  const line = (key: string, value: string) => stringify({ [key]: value.replace(/\s+/g, ' ').trim() }, { lineWidth: 0 }).trimEnd();
  const { comments, source, build, stage, step, why } = texts[language];
  return `${comments.head.map((text) => `# ${text}\n`).join('')}undertray: 1
${line('id', slug(title) || 'procedure')}
${line('title', title)}
${line('vehicle', vehicle)}
# ${comments.builds}
builds:
  all: ${build}
# ${comments.source}
source: ${source}
language: ${language}
${line('author', author)}
revision: 1

# ${comments.before}
#before:
#  - kind: support
#    check: ${comments.check}

# ${comments.stages}
stages:
  - id: stage-1
    title: ${stage}
    steps:
      - id: step-1
        do: ${step}
        why: ${why}
        # ${comments.fasteners}
        #fasteners:
        #  - id: carrier-bolts
        #    name: ${comments.fastener}
        #    count: 2
        #    drive: hex 17
        #    torque: 90 N·m ±5
`;
}

const texts = {
  en: {
    comments: {
      head: [
        'One procedure. Everything after # is a note to yourself and is never read out.',
        'Press Ctrl and Space for what may be written where the cursor is.',
      ],
      builds: 'The variants of the vehicle. Any value may differ: torque: { build K: 90 N·m, build M: 110 N·m }',
      source: 'Where the values come from: the maker’s manual, its number and page. It is read out before the job.',
      before: 'What must be true before the job starts. Take the # away to use it:',
      check: 'The van stands on both stands.',
      stages: 'Stages of steps. Each step is one short sentence, as you would say it to somebody under the van.',
      fasteners: 'Bolts that are counted and tightened. The numbers here are examples only; yours come from the source.',
      fastener: 'carrier bolt',
    },
    source: 'No source given yet. Follow the maker’s manual for every value.',
    build: 'every build',
    stage: 'First stage',
    step: 'Say here what to do first.',
    why: 'Say here why, for whoever asks.',
  },
  fr: {
    comments: {
      head: [
        'Une procédure. Ce qui suit # est une note pour soi et n’est jamais lu à voix haute.',
        'Ctrl et Espace montrent ce qui peut s’écrire à l’endroit du curseur.',
      ],
      builds: 'Les versions du véhicule. Toute valeur peut différer : torque: { build K: 90 N·m, build M: 110 N·m }',
      source: 'D’où viennent les valeurs : le manuel du constructeur, son numéro, sa page. C’est lu avant le travail.',
      before: 'Ce qui doit être vrai avant de commencer. Ôter les # pour s’en servir :',
      check: 'La camionnette repose sur ses deux chandelles.',
      stages: 'Des phases faites d’étapes. Chaque étape est une phrase courte, comme on la dirait à quelqu’un sous la camionnette.',
      fasteners: 'Les vis que l’on compte et que l’on serre. Ces chiffres ne sont que des exemples ; les vôtres viennent de la source.',
      fastener: 'vis de support',
    },
    source: 'Aucune source indiquée. Suivre le manuel du constructeur pour chaque valeur.',
    build: 'toutes les versions',
    stage: 'Première phase',
    step: 'Dire ici quoi faire en premier.',
    why: 'Dire ici pourquoi, pour qui le demande.',
  },
} as const;
