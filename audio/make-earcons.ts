/** Writes audio/earcons/*.wav from the recipes: `npx tsx audio/make-earcons.ts`. The same recipes give the same bytes. */
import { writeFileSync } from 'node:fs';
import type { EarconRecipe } from './earcon-recipes.ts';
import { earconRecipes, renderEarcon } from './earcon-recipes.ts';
import { encodeWav } from './wav.ts';

for (const name of Object.keys(earconRecipes) as EarconRecipe[]) {
  const file = new URL(`earcons/${name}.wav`, import.meta.url);
  writeFileSync(file, encodeWav(renderEarcon(name)));
  console.log(file.pathname);
}
