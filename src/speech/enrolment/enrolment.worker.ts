import { loadHearingModels } from '../hearing/load.ts';
import { fetchHearingModels } from '../recognition/hearing-assets.ts';
import { NetworkFault } from '../recognition/hearing-station.ts';
import { createEnrolmentStation } from './enrolment-station.ts';
import type { ToEnrolment } from './messages.ts';

const take = createEnrolmentStation({
  async loadModels(onProgress) {
    const bytes = await fetchHearingModels('en', onProgress).catch((error: unknown) => {
      throw new NetworkFault(String(error));
    });
    return loadHearingModels(bytes);
  },
  tell: (message) => self.postMessage(message),
});

self.onmessage = ({ data }: MessageEvent<ToEnrolment>) => take(data);
