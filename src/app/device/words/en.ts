/** What the panel about this device says in English. */
export const en = {
  title: 'This device',
  offline: {
    looking: 'Looking what is already on this device…',
    insecure:
      'This page came over a plain network address, so the browser neither lets it use the microphone nor keeps it for later. The README says how to get a certificate for it.',
    unsupported: 'This browser cannot keep the page for work without a network.',
    fetching: 'Fetching voice, ear and sounds, about 35 MB, so that everything works without a network. You can start meanwhile.',
    ready: 'Ready for work without a network: voice, ear and procedures are on this device.',
    failed: 'Not everything could be fetched. What is here works; for the rest a network is needed.',
  },
  again: 'Try again',
  update: 'A newer version is ready. It is taken only when you say so.',
  updateWaits: 'A job is open in a tab. Finish it or leave it, then take the newer version.',
  takeUpdate: 'Take the newer version',
  storage: {
    title: 'Storage',
    kept: 'Records are kept on this device and protected from clearing.',
    notKept: 'Records are kept on this device, but the browser may clear them when space runs out. Export what matters.',
    ask: 'Ask the browser to protect them',
    refused: 'The browser did not agree. It often does once the app is used more, or installed.',
    room: (size: string) => `Room left: ${size}.`,
    unknownRoom: 'This browser does not say how much room is left.',
    low: 'That is little. Export finished jobs and remove some before the record itself is in danger.',
  },
  phone: 'Open it on a phone',
  phoneHow: 'Point the phone’s camera at the code. The phone must be in the same network.',
  phoneLocal:
    'This page was opened from this very device, and no phone can reach that address. Start it with “npm start -- --host”, and the code for the phone stands here and in the terminal.',
  phoneSecure:
    'Over plain http the phone gives no microphone and keeps nothing for work without a network: see “On a phone” in the README.',
  codeOf: (address: string) => `Code for ${address}`,
};

export type DeviceWords = typeof en;
