import type { ToolSpeech } from '../language.ts';
import { insteadName, kitName } from './kit-names.ts';
import { wrenchRemark } from './wrench-remark-words.ts';
import { wrenchNote } from './wrench-words.ts';

export const tools: ToolSpeech = {
  kitName: (item) => kitName(item).show,
  instead: ({ instead }) => (instead === null ? null : insteadName(instead).show),
  note: wrenchNote,
  remark: wrenchRemark,
};
