import { useEffect, useState } from 'react';
import type { Language } from '../../phrasing/language.ts';

/** A page's own words in the language chosen: English at once, another as soon as it is fetched. */
export function usePageWords<W>(language: Language, en: W, fetchOther: () => Promise<W>): W {
  const [other, setOther] = useState<W | null>(null);
  useEffect(() => {
    if (language === 'en') return;
    let current = true;
    void fetchOther().then((words) => {
      if (current) setOther(words);
    });
    return () => {
      current = false;
    };
  }, [language, fetchOther]);
  return language === 'en' ? en : (other ?? en);
}
