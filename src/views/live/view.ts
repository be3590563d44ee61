import { DISPLAY, type Displayable, type MimeBundle } from '../mime.js';
import { joinKernel, type ViewChannel } from './kernel-channel.js';
import { newViewId, withId, withoutId } from './view-id.js';

/** What the reader of a view has moved or chosen. */
export type ViewState = Readonly<Record<string, unknown>>;

const PATIENCE_MS = 3000;

/**
 * A view whose state code can read and set while a reader moves it. Every shown copy of it takes part.
 * Show it by making it the last value of a cell, or with `display(view)`.
 */
export class View implements Displayable {
  private id: string | undefined;
  private readonly channels = new Set<ViewChannel>();
  private readonly listeners = new Set<(state: ViewState) => void>();
  private last: ViewState | undefined;

  /** @param bundle makes the output; it is given the id to put into the data */
  constructor(private readonly bundle: (viewId: string) => MimeBundle) {}

  /** Ties the shown copies to this value: the same in each run of a notebook, no other view's in one session. */
  get viewId(): string {
    return (this.id ??= newViewId(withoutId(this.bundle)));
  }

  /** The output of the cell whose last value this is. */
  [DISPLAY](): MimeBundle {
    const bundle = withoutId(this.bundle);
    this.id ??= newViewId(bundle);
    joinKernel(this);
    return withId(bundle, this.id);
  }

  /**
   * What the reader has moved: the state of the copy touched last. Waits up to 3 s for a copy just shown.
   * @throws Error when no page shows the view, as when a notebook runs without JupyterLab
   */
  async state(): Promise<ViewState> {
    if (this.last) return this.last;
    return new Promise((resolve, reject) => {
      const stop = this.onChange((state) => {
        clearTimeout(timer);
        stop();
        resolve(state);
      });
      const timer = setTimeout(() => {
        stop();
        const hint = 'show it in one cell and ask for its state in a later one';
        reject(new Error(`no open page shows this view: ${hint}`));
      }, PATIENCE_MS);
    });
  }

  /** Moves every shown copy, as a reader would: `view.set({ eyeHeightM: 3 })`. Unknown names are left out. */
  set(state: ViewState): void {
    for (const channel of this.channels) channel.send({ set: state });
  }

  /** Calls back with every move of the reader; returns what ends that. */
  onChange(listener: (state: ViewState) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** A page has shown this view and opened a channel to it. @internal */
  connect(channel: ViewChannel, state: unknown): void {
    this.channels.add(channel);
    this.receive(state);
  }
  /** @internal */
  disconnect(channel: ViewChannel): void {
    this.channels.delete(channel);
  }
  /** @internal */
  receive(state: unknown): void {
    if (typeof state !== 'object' || state === null) return;
    this.last = Object.freeze({ ...state });
    for (const listener of this.listeners) listener(this.last);
  }
}
