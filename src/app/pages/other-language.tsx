import { isLanguage } from '../../phrasing/language.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';

/** Says what a procedure in another language than the person's means for the job; nothing where both are the same. */
export function OtherLanguage({ language }: { readonly language: string }) {
  const words = useWords();
  const { settings } = useSettings();
  if (isLanguage(language, settings.language)) return null;
  // The browser knows every language, but takes a slow phone a tenth of a second for the first name.
  const name = words.start.languages[language] ?? new Intl.DisplayNames([settings.language], { type: 'language' }).of(language) ?? language;
  return <p className="quiet small">{words.start.inLanguage(name)}</p>;
}
