import { useState } from 'react';
import type { ReactNode } from 'react';

/** What may be unfolded: it is made only then, since most of it nobody ever looks at. */
export function Folded({ summary, children }: { readonly summary: string; readonly children: () => ReactNode }) {
  const [wasOpened, setOpened] = useState(false);
  return (
    <details onToggle={({ currentTarget }) => currentTarget.open && setOpened(true)}>
      <summary>{summary}</summary>
      {wasOpened ? children() : null}
    </details>
  );
}
