import type { HeardAlternative, RejectionReason } from '../hearing/port.ts';

/** Where recognition happens. Only `browser-remote` may send audio off the device. */
export const earKinds = ['browser-on-device', 'local', 'browser-remote'] as const;
export type EarKind = (typeof earKinds)[number];

export function audioLeavesDevice(kind: EarKind): boolean {
  return kind === 'browser-remote';
}

/** Why an ear gave up. */
export const earFaults = [
  'microphone-denied',
  'no-microphone',
  'network',
  'service-refused',
  'language-missing',
  /** It neither starts nor ends. */
  'stuck',
  /** It starts and ends again and again without hearing. */
  'keeps-stopping',
] as const;
export type EarFault = (typeof earFaults)[number];

/** Times are milliseconds on the page's clock. */
export type EarEvent =
  | { readonly kind: 'listening' }
  | { readonly kind: 'speech-start'; readonly time: number }
  | { readonly kind: 'partial'; readonly text: string; readonly from: number }
  | { readonly kind: 'heard'; readonly alternatives: readonly HeardAlternative[]; readonly from: number; readonly to: number }
  | { readonly kind: 'rejected'; readonly why: RejectionReason; readonly text: string; readonly from: number; readonly to: number }
  /** Nothing follows until it is asked to listen again. */
  | { readonly kind: 'broken'; readonly fault: EarFault; readonly message: string };

/** An ear that keeps listening until told to rest, whatever its recogniser does. */
export interface Ear {
  listen(): void;
  /** Takes no more sound, but still tells what can be made of the sound so far. */
  finish(): void;
  /** Stops at once; nothing of what was said is told. */
  rest(): void;
}
