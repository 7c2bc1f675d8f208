import { Component, type ErrorInfo, type ReactNode } from 'react';
import { START_HREF } from './route.ts';

interface Props {
  readonly children: ReactNode;
  /** A view's name: going elsewhere starts afresh. */
  readonly name?: string;
}

interface State {
  readonly error: Error | null;
}

/**
 * Catches what must not happen, says what to do and loses nothing: what was typed is in the documents, which
 * live outside the pages.
 */
export class ErrorBoundary extends Component<Props, State> {
  override state: State = { error: null };

  static getDerivedStateFromError(error: unknown): State {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override componentDidCatch(error: unknown, info: ErrorInfo): void {
    console.error('A page broke.', error, info.componentStack);
  }

  override componentDidUpdate(before: Props): void {
    if (before.name !== this.props.name && this.state.error) this.setState({ error: null });
  }

  override render(): ReactNode {
    const { error } = this.state;
    if (!error) return this.props.children;
    return (
      <main className="page broken" role="alert">
        <h1>This page stumbled</h1>
        <p>
          What you typed is kept, and the band plays on. Draw the page again; if that does not help, load it
          anew.
        </p>
        <p className="dim small">The reason, for whoever looks after this: {error.message}</p>
        <div className="button-row">
          <button type="button" className="button-primary" onClick={() => this.setState({ error: null })}>
            Draw it again
          </button>
          <button type="button" className="button" onClick={() => window.location.reload()}>
            Load anew
          </button>
          <a className="button" href={START_HREF}>
            Start page
          </a>
        </div>
      </main>
    );
  }
}
