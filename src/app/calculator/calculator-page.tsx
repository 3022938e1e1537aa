import { PageTop } from '../pages/page-top.tsx';
import './calculator.css';
import { OrderPart } from './order-part.tsx';
import { SocketPart } from './socket-part.tsx';
import { ThreadPart } from './thread-part.tsx';
import { UnitsPart } from './units-part.tsx';
import { WrenchPart } from './wrench-part.tsx';
import { useCalculatorWords } from './words/words.ts';

/** The workshop arithmetic to play with. Nothing of it is a specification, and the page says so wherever a figure stands. */
export function CalculatorPage() {
  const words = useCalculatorWords();
  return (
    <main className="page">
      <PageTop title={words.title} />
      <p className="warn">{words.about}</p>
      <div className="calculator">
        <UnitsPart />
        <WrenchPart />
        <ThreadPart />
        <OrderPart />
        <SocketPart />
      </div>
    </main>
  );
}
