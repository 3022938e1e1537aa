import { useState, useSyncExternalStore } from 'react';
import { encode } from 'uqr';
import { theOffline } from './offline.ts';
import { phoneAddresses } from './phone-addresses.ts';
import { StorageState } from './storage-section.tsx';
import { useDeviceWords } from './use-device-words.ts';
import type { DeviceWords } from './words/en.ts';

/** Whether this device is fit for the day: work without a network, records that stay, and the way to a phone. */
export function DevicePanel() {
  const words = useDeviceWords();
  const offline = theOffline();
  const { readiness, update } = useSyncExternalStore(offline.subscribe, offline.state);
  return (
    <section className="stack" aria-labelledby="this-device">
      <h2 id="this-device">{words.title}</h2>
      <p role="status" className={readiness === 'ready' ? 'good' : readiness === 'failed' || readiness === 'insecure' ? 'warn' : 'quiet'}>
        {words.offline[readiness]}
      </p>
      {readiness === 'failed' ? (
        <button type="button" className="at-start" onClick={() => void offline.start()}>
          {words.again}
        </button>
      ) : null}
      {update === 'none' ? null : (
        <div className="row" role="status">
          <p>{update === 'job-open' ? words.updateWaits : words.update}</p>
          <button type="button" onClick={() => void offline.takeUpdate()}>
            {words.takeUpdate}
          </button>
        </div>
      )}
      <StorageState />
      <Phone words={words} />
    </section>
  );
}

function Phone({ words }: { readonly words: DeviceWords }) {
  const [addresses, setAddresses] = useState<readonly string[] | null>(null);
  return (
    <details
      onToggle={(event) => {
        if (event.currentTarget.open) void phoneAddresses().then(setAddresses);
      }}
    >
      <summary>{words.phone}</summary>
      {addresses === null ? null : addresses.length === 0 ? (
        <p>{words.phoneLocal}</p>
      ) : (
        <div className="stack">
          <p>{words.phoneHow}</p>
          {addresses.every((address) => address.startsWith('https:')) ? null : <p className="warn">{words.phoneSecure}</p>}
          <div className="row">
            {addresses.map((address) => (
              <figure key={address} className="stack code">
                <Code address={address} label={words.codeOf(address)} />
                <figcaption>{address}</figcaption>
              </figure>
            ))}
          </div>
        </div>
      )}
    </details>
  );
}

function Code({ address, label }: { readonly address: string; readonly label: string }) {
  const { data, size } = encode(address, { border: 2 });
  const dark = data.flatMap((line, y) => line.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shapeRendering="crispEdges">
      <rect width={size} height={size} fill="#fff" />
      <path d={dark.join('')} fill="#000" />
    </svg>
  );
}
