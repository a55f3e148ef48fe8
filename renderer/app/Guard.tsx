// A fault in one part of the window stays in that part: it says so there, the rest goes on, and the part can be shown again.
// A class, since the library has no other way to catch what is thrown while drawing.

import { Component, type ReactNode } from 'react';

export interface GuardProps {
  /** What the part is called: 'The sheet'. */
  readonly part: string;
  readonly children: ReactNode;
}

interface Failed {
  readonly message: string | null;
}

export class Guard extends Component<GuardProps, Failed> {
  override readonly state: Failed = { message: null };

  static getDerivedStateFromError(error: unknown): Failed {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    const { message } = this.state;
    const { part, children } = this.props;
    if (message === null) return children;
    return (
      <div className="guard" role="alert">
        <p>
          <strong>{part} cannot be shown.</strong> This is a fault of the program: {message}
        </p>
        <p className="soft">The plan is not touched, and every edit is kept.</p>
        <div className="row">
          <button type="button" className="main" onClick={() => this.setState({ message: null })}>
            Show it again
          </button>
          <button type="button" onClick={() => location.reload()}>
            Load the window again
          </button>
        </div>
      </div>
    );
  }
}
