import { PageTop } from '../pages/page-top.tsx';
import { useCalculatorWords } from './words/words.ts';

/** The top of the calculator. */
export function CalculatorOpening() {
  const words = useCalculatorWords();
  return (
    <>
      <PageTop title={words.title} />
      <p className="warn">{words.about}</p>
    </>
  );
}
