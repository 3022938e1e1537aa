import { useSettings } from '../settings-context.ts';
import { figure } from './figures.ts';
import { useCalculatorWords } from './words/words.ts';

/** Lever and adapter from above, to scale: the hand on the left, the square in the middle, the fastener where the angle puts it. */
export function LeverPicture({ lever, centre, angle }: { readonly lever: number; readonly centre: number; readonly angle: number }) {
  const words = useCalculatorWords().wrench;
  const { language } = useSettings().settings;
  const scale = 220 / (lever + centre);
  const turn = (angle * Math.PI) / 180;
  const square = { x: 20 + lever * scale, y: 95 };
  const fastener = { x: square.x + centre * scale * Math.cos(turn), y: square.y - centre * scale * Math.sin(turn) };
  return (
    <svg
      className="lever-picture"
      viewBox="0 0 260 130"
      role="img"
      aria-label={words.picture(figure(lever, language), figure(centre, language), figure(angle, language))}
    >
      <line x1={20} y1={95} x2={square.x} y2={square.y} className="lever" />
      <line x1={square.x} y1={square.y} x2={fastener.x} y2={fastener.y} className="arm" />
      <circle cx={20} cy={95} r={7} className="hand" />
      <rect x={square.x - 6} y={square.y - 6} width={12} height={12} className="square" />
      <circle cx={fastener.x} cy={fastener.y} r={9} className="fastener" />
      <text x={20} y={122} textAnchor="start">
        {words.hand}
      </text>
      <text x={square.x} y={122} textAnchor="middle">
        {words.square}
      </text>
      <text x={Math.min(fastener.x, 250)} y={Math.max(12, fastener.y - 15)} textAnchor={fastener.x > 200 ? 'end' : 'middle'}>
        {words.fastener}
      </text>
    </svg>
  );
}
