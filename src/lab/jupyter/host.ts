import type { IRenderMime } from '@jupyterlab/rendermime-interfaces';
import type { Widget } from '@lumino/widgets';

/** The few parts of JupyterLab's packages that we call, typed here so that none of them is needed to build. */
export interface Lab {
  readonly Widget: new () => Widget;
  readonly tokens: {
    readonly rendermime: unknown;
    readonly translator: unknown;
    readonly notebooks: unknown;
    readonly themes: unknown;
    /** Undefined where no menus are shared. */
    readonly menus: unknown;
  };
}

export interface Commands {
  addCommand(
    id: string,
    options: { label: string; caption: string; execute: () => unknown },
  ): unknown;
}

/** JupyterLab's main menu, as far as its Help goes. */
export interface HelpMenu {
  readonly helpMenu: { addGroup(items: { command: string }[], rank?: number): unknown };
}

export type Shared = (name: string) => Promise<unknown>;

export interface RenderMimeRegistry {
  addFactory(factory: IRenderMime.IRendererFactory, rank?: number): void;
}

export interface TranslatorService {
  load(domain: string): { gettext(text: string): string };
}

/** JupyterLab's signals, as far as we listen. */
export interface Signal<S, A> {
  connect(slot: (sender: S, args: A) => void): boolean;
}

export interface Kernel {
  readonly name: string;
  createComm(target: string): Comm;
}

export interface Comm {
  open(data?: unknown): unknown;
  send(data: unknown): unknown;
  close(): unknown;
  onMsg: (message: { content: { data: unknown } }) => void;
  onClose: (message: unknown) => void;
}

interface SharedCell {
  getSource(): string;
  setSource(source: string): void;
}

export interface NotebookPanel {
  readonly node: HTMLElement;
  readonly context?: { readonly path: string };
  readonly content?: {
    readonly widgets: readonly {
      readonly node: HTMLElement;
      readonly model: { readonly sharedModel: SharedCell };
    }[];
    readonly model: {
      readonly sharedModel: { insertCell(at: number, cell: object): unknown };
    } | null;
  };
  readonly sessionContext: {
    readonly session: { readonly kernel: Kernel | null } | null;
    readonly kernelPreference: { readonly name?: string };
    readonly kernelChanged: Signal<unknown, unknown>;
  };
}

export interface NotebookTracker {
  find(match: (panel: NotebookPanel) => boolean): NotebookPanel | undefined;
  forEach(visit: (panel: NotebookPanel) => void): void;
  readonly widgetAdded: Signal<unknown, NotebookPanel>;
}

export interface ThemeManager {
  /** Loads a style sheet of JupyterLab's own themes; it goes when the theme changes. */
  loadCSS(path: string): Promise<void>;
  register(theme: {
    name: string;
    displayName?: string;
    isLight: boolean;
    themeScrollbars?: boolean;
    load(): Promise<void>;
    unload(): Promise<void>;
  }): { dispose(): void };
}

export async function labFrom(shared: Shared): Promise<Lab> {
  const load = (name: string) => shared(name) as Promise<Record<string, unknown>>;
  const [widgets, rendermime, translation, notebook, apputils, mainmenu] = await Promise.all([
    load('@lumino/widgets'),
    load('@jupyterlab/rendermime'),
    load('@jupyterlab/translation'),
    load('@jupyterlab/notebook'),
    load('@jupyterlab/apputils'),
    load('@jupyterlab/mainmenu').catch(() => undefined),
  ]);
  return {
    Widget: widgets['Widget'] as Lab['Widget'],
    tokens: {
      rendermime: rendermime['IRenderMimeRegistry'],
      translator: translation['ITranslator'],
      notebooks: notebook['INotebookTracker'],
      themes: apputils['IThemeManager'],
      menus: mainmenu?.['IMainMenu'],
    },
  };
}
