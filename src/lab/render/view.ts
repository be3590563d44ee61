import type { PlotlyLibrary } from './plotly.js';
import type { Formulas } from './formulas.js';
import type { GridLibrary } from './edit/load-grid.js';

/** A cell of the notebook that holds code written by a view. */
export interface CodeCell {
  /** The notebook's path. */
  readonly place: string;
  /** The variable that holds the log which the view's own cell shows under this name. */
  variable(name: string): string;
  /** The code that makes `as` from `log`, if a cell holds it. */
  find(names: { readonly log: string; readonly as: string }): string | undefined;
  /** Writes it, into a new cell below the view where there is none. @returns false when it cannot */
  write(names: { readonly log: string; readonly as: string }, code: string): boolean;
}

/** What the page gives to the renderers. */
export interface Services {
  /** A sentence of the interface in the reader's language. */
  t(text: string): string;
  plotly(): Promise<PlotlyLibrary>;
  formulas(): Promise<Formulas>;
  /** The grid library; published pages carry none. */
  grid?(): Promise<GridLibrary>;
  /** The cell for code of the view shown in this element; only in a notebook that can be edited. */
  codeCell?(node: HTMLElement): CodeCell | undefined;
}

export type ViewState = Readonly<Record<string, unknown>>;

/** A shown view. */
export interface ViewHandle {
  /** Names the value in the kernel that this view shows, if it has one. */
  readonly viewId?: string;
  /** What the reader has moved or chosen, as plain data. */
  state(): ViewState;
  /** Moves the view as a reader would; what cannot be understood is left out. */
  set(state: unknown): void;
  onChange(listener: (state: ViewState) => void): () => void;
  dispose(): void;
}

export type Mount = (
  host: HTMLElement,
  data: unknown,
  services: Services,
) => ViewHandle | Promise<ViewHandle>;

/** A view that nothing can be moved in. */
export function stillView(dispose: () => void = () => {}): ViewHandle {
  return { state: () => ({}), set() {}, onChange: () => () => {}, dispose };
}

/** A view that changes: what is its own in the handle, with the listeners that it tells of changes. */
export function liveView(
  viewId: string | undefined,
  listeners: Set<(state: ViewState) => void>,
  own: Pick<ViewHandle, 'state' | 'set' | 'dispose'>,
): ViewHandle {
  return {
    ...own,
    ...(viewId === undefined ? {} : { viewId }),
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
