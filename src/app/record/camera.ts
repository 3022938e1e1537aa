import type { FailureCode } from '../../phrasing/lines.ts';

export type OpenedCamera =
  | { readonly ok: true; readonly stream: MediaStream }
  | { readonly ok: false; readonly code: Extract<FailureCode, 'no-camera' | 'camera-denied'> };

/** The camera that looks away from the person, where there is a choice. */
export async function openCamera(): Promise<OpenedCamera> {
  // Absent outside a secure context, whatever the types say.
  const devices = (navigator as { readonly mediaDevices?: MediaDevices }).mediaDevices;
  if (devices === undefined) return { ok: false, code: 'no-camera' };
  try {
    const video = { facingMode: 'environment', width: { ideal: 1920 }, height: { ideal: 1080 } };
    return { ok: true, stream: await devices.getUserMedia({ video, audio: false }) };
  } catch (error) {
    const isDenied = error instanceof DOMException && (error.name === 'NotAllowedError' || error.name === 'SecurityError');
    return { ok: false, code: isDenied ? 'camera-denied' : 'no-camera' };
  }
}

export function closeCamera(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}
