import type { ToolSpeech } from '../language.ts';
import { wrenchRemark } from './wrench-remark-words.ts';
import { wrenchNote } from './wrench-words.ts';

export const tools: ToolSpeech = {
  kitName: ({ name }) => name,
  instead: ({ instead }) => instead,
  note: wrenchNote,
  remark: wrenchRemark,
};
