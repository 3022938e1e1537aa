/**
 * Drawing in turn. One picture can take longer to draw and to lay out than a page may stand still, so what is to be drawn comes in parts,
 * and all pictures and long tables of the page queue here: some milliseconds of parts, then a frame in which they are laid out and anything else
 * may happen.
 */
const spell = 8;

/** What a part says that is quickly asked for and long in coming: nothing is to follow it before the next frame. */
export const ownFrame = Symbol('a frame of its own');

type Parts = Iterator<typeof ownFrame | undefined, unknown>;

interface Drawn {
  readonly parts: Parts;
}

const waiting: Drawn[] = [];
let isUnderWay = false;

/** Takes the parts one by one when their turn has come. The function that it gives leaves out those still to come. */
export function drawInTurn(parts: Parts): () => void {
  const own: Drawn = { parts };
  waiting.push(own);
  if (!isUnderWay) {
    isUnderWay = true;
    setTimeout(goOn);
  }
  return () => {
    const place = waiting.indexOf(own);
    if (place >= 0) waiting.splice(place, 1);
  };
}

function goOn(): void {
  const begun = performance.now();
  let first = waiting[0];
  let wanted: unknown;
  try {
    while (first !== undefined && wanted !== ownFrame && performance.now() - begun < spell) {
      const part = first.parts.next();
      wanted = part.value;
      if (part.done === true) waiting.splice(waiting.indexOf(first), 1);
      first = waiting[0];
    }
  } catch (error) {
    // A picture that cannot be drawn must not hold up the others for good.
    if (first !== undefined) waiting.splice(waiting.indexOf(first), 1);
    reportError(error);
  }
  isUnderWay = waiting.length > 0;
  if (isUnderWay) afterFrame(goOn);
}

/** Behind the next frame and not in it. A page that nobody sees has no frames. */
function afterFrame(act: () => void): void {
  if (document.hidden) setTimeout(act);
  else requestAnimationFrame(() => setTimeout(act));
}
