/**
 * Drawing in turn. One picture can take longer to draw and to lay out than a page may stand still, so what is to be drawn comes in parts,
 * and all pictures of the page queue here: some milliseconds of parts, then a frame in which they are laid out and anything else may happen.
 */
const spell = 8;

interface Drawn {
  readonly parts: Iterator<unknown>;
}

const waiting: Drawn[] = [];
let isUnderWay = false;

/** Takes the parts one by one when their turn has come. The function that it gives leaves out those still to come. */
export function drawInTurn(parts: Iterator<unknown>): () => void {
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
  try {
    while (first !== undefined && performance.now() - begun < spell) {
      if (first.parts.next().done === true) waiting.splice(waiting.indexOf(first), 1);
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
