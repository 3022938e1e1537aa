/** Writes what can be said to the app, a line each, for texts.py: `tsx phrases.ts > phrases.txt`. */
import { dialogueStates } from '../../../phrasing/intents.ts';
import { phrasesOf } from '../../../phrasing/lexicon.ts';
import { packFor } from '../../../phrasing/packs.ts';

const { lexicon } = packFor('en');
const texts = dialogueStates.flatMap((state) => phrasesOf(lexicon, state).map(({ text }) => text.toLowerCase()));
for (const text of new Set(texts)) console.log(text);
