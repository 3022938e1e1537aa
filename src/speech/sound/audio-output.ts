import { Howler } from 'howler';

/** Where all sound of the app goes: howler's own context, so that one volume and one unlocking serve all of it. */
export interface AudioOutput {
  readonly context: AudioContext;
  readonly destination: AudioNode;
}

export function audioOutput(): AudioOutput {
  // A context that howler puts to sleep costs the first word of the next prompt.
  Howler.autoSuspend = false;
  // Reading the volume is what makes howler set up its context.
  Howler.volume();
  return { context: Howler.ctx, destination: Howler.masterGain };
}

/** Wakes the context; browsers allow it only once the person has touched the page. Resolves to whether sound can be heard. */
export async function wakeAudio(milliseconds: number): Promise<boolean> {
  const { context } = audioOutput();
  if (context.state === 'running') return true;
  // A context that may not run does not refuse: its promise stays open.
  await Promise.race([context.resume(), new Promise((resolve) => setTimeout(resolve, milliseconds))]);
  return isRunning(context);
}

function isRunning({ state }: AudioContext): boolean {
  return state === 'running';
}
