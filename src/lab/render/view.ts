import type { PlotlyLibrary } from './plotly.js';
import type { Formulas } from './formulas.js';

/** What the page gives to the renderers. */
export interface Services {
  /** A sentence of the interface in the reader's language. */
  t(text: string): string;
  plotly(): Promise<PlotlyLibrary>;
  formulas(): Promise<Formulas>;
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
