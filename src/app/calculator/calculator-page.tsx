import { CalculatorOpening } from './calculator-opening.tsx';
import './calculator.css';
import { OrderPart } from './order-part.tsx';
import { SocketPart } from './socket-part.tsx';
import { ThreadPart } from './thread-part.tsx';
import { UnitsPart } from './units-part.tsx';
import { WrenchPart } from './wrench-part.tsx';

/** The workshop arithmetic to play with. Nothing of it is a specification, and the page says so wherever a figure stands. */
export function CalculatorPage() {
  return (
    <main className="page">
      <CalculatorOpening />
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
