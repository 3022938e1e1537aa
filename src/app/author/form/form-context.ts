import { createContext, useContext } from 'react';
import type { ProcedureEdit } from '../../../procedure/edits.ts';
import type { KeyPath } from '../../../procedure/plain-tree.ts';
import type { YamlNode } from '../../../procedure/yaml-tree.ts';
import type { Mark } from '../check.ts';
import type { DraftEvidence, DraftQuestion } from '../questions.ts';
import type { Bench } from '../text/bench.ts';

/** What every part of the form needs. */
export interface FormAccess {
  readonly bench: Bench;
  readonly root: YamlNode;
  readonly readOnly: boolean;
  readonly builds: readonly string[];
  readonly marksAt: ReadonlyMap<string, readonly Mark[]>;
  readonly questions: readonly DraftQuestion[];
  readonly evidence: readonly DraftEvidence[];
  /** Plays the recording of the talk from there; null where there is none. */
  readonly play: ((at: number) => void) | null;
  readonly edit: (...edits: ProcedureEdit[]) => void;
}

export const FormContext = createContext<FormAccess | null>(null);

export function useForm(): FormAccess {
  const form = useContext(FormContext);
  if (form === null) throw new Error('useForm outside the form');
  return form;
}

/** As problems name it: "stages[0].steps[2].do". */
export const pathText = (path: KeyPath): string =>
  path.reduce<string>((text, key) => (typeof key === 'number' ? `${text}[${key}]` : text === '' ? key : `${text}.${key}`), '');
