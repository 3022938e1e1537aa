import { createHearing } from '../hearing/hearing.ts';
import { optionsFor } from '../hearing/language-options.ts';
import { loadHearingModels } from '../hearing/load.ts';
import { fetchHearingModels } from './hearing-assets.ts';
import { createHearingStation, NetworkFault } from './hearing-station.ts';
import type { ToHearingWorker } from './messages.ts';

const take = createHearingStation({
  async makeHearing(language, onProgress) {
    const bytes = await fetchHearingModels(language, onProgress).catch((error: unknown) => {
      throw new NetworkFault(String(error));
    });
    return createHearing(await loadHearingModels(bytes), optionsFor[language]);
  },
  tell: (message) => self.postMessage(message),
});

self.onmessage = ({ data }: MessageEvent<ToHearingWorker>) => take(data);
