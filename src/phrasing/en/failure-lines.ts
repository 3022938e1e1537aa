import { sentences } from '../compose.ts';
import type { FailureCode, Spoken } from '../lines.ts';

/** What is wrong, and how to go on. */
const failures: Readonly<Record<FailureCode, string>> = {
  'not-stored-disk-full': 'Not recorded: the device is full. Make room, then do that again.',
  'not-stored-blocked': 'Not recorded: the browser blocks storage. Allow it, then do that again.',
  'not-stored-newer-version': 'Not recorded: a newer version wrote this record. Reload the page.',
  'not-stored-other-tab': 'Not recorded: this job is open in another tab. Go on there.',
  'not-stored-refused': 'Not recorded: it is too long. Make it shorter, then do that again.',
  'storage-evicted': 'The browser had removed the record. It has been stored again. Export it soon.',
  'record-corrupt': 'Part of this record cannot be read. It is kept. Export it before going on.',
  'no-microphone': 'No microphone found. Use the buttons, keys or pedal.',
  'microphone-denied': 'The microphone is not allowed. Allow it in the browser, or use the buttons.',
  'no-recogniser': 'Speech cannot be recognised here. Use the buttons, keys or pedal.',
  'no-voice': 'No voice is available. Read the captions.',
  'network-lost': 'The network is gone. The job goes on without it.',
  'switched-to-local-ear': 'Listening on the device now.',
  'switched-to-local-voice': 'Speaking with the voice on the device now.',
  'too-loud': 'Too loud here. Come closer to the phone, or use the buttons.',
  'battery-low': 'The battery is low. Plug the device in.',
  'clock-changed': 'The clock was changed. Timers go on by the running time.',
  slept: 'The device was asleep. Check the timers before going on.',
  'no-camera': 'No camera found.',
  'camera-denied': 'The camera is not allowed. Allow it in the browser.',
  'no-dictation': 'Speech cannot be written down here. The recording is kept.',
  'note-empty': 'Nothing was recorded. Say it again, or type it.',
  'note-too-large': 'That note is too large to be kept. Make it shorter.',
  'notes-full': 'That note was not kept. The notes of this job take up too much room.',
  'note-disk-full': 'Note not kept: the device is nearly full. The job itself is still recorded.',
  'storage-low': 'Little room is left on this device. Export finished jobs and make room.',
};

export function failureWords(code: FailureCode): Spoken {
  return sentences(failures[code]);
}
