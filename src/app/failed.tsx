import { Component } from 'react';
import type { ReactNode } from 'react';
import { WordsContext } from './words/words.ts';

/** A screen that breaks must not take the job with it: what was acknowledged is stored, and a reload goes on there. */
export class Failed extends Component<{ readonly children: ReactNode }, { readonly error: Error | null }> {
  override state: { readonly error: Error | null } = { error: null };

  static getDerivedStateFromError(error: unknown) {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override render() {
    const { error } = this.state;
    if (error === null) return this.props.children;
    return (
      <WordsContext.Consumer>
        {(words) => (
          <main className="page">
            <div className="trouble" role="alert">
              <h1>{words.failed.title}</h1>
              <p>{words.failed.text}</p>
              <p className="quiet small">{error.message}</p>
              <button type="button" className="primary" onClick={() => location.reload()}>
                {words.failed.reload}
              </button>
            </div>
          </main>
        )}
      </WordsContext.Consumer>
    );
  }
}
