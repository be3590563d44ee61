import type { IRenderMime } from '@jupyterlab/rendermime-interfaces';
import { MIME } from '../../views/mime.js';
import { mountWhenWanted } from '../render/lazy-mounts.js';
import type { Services, ViewHandle } from '../render/view.js';
import type { Lab, NotebookTracker, TranslatorService } from './host.js';
import { linkToKernel } from './kernel-link.js';
import { makeServices } from './services.js';

/** What is worked by arrow keys and the space bar; JupyterLab would move from cell to cell instead. */
const WORKED_BY_KEYS =
  '[role="slider"], [role="slider"] *, input[type="range"], canvas, .ch-canvas';

/** JupyterLab leaves the keys to a focused element that carries this mark. */
function keepKeys({ target }: FocusEvent): void {
  if (target instanceof Element && target.matches(WORKED_BY_KEYS))
    target.setAttribute('data-lm-suppress-shortcuts', 'true');
}

/** One renderer factory for each of our MIME types and for plotly figures. */
export function makeFactories(
  lab: Lab,
  translation: TranslatorService | null,
  tracker: NotebookTracker | null,
): IRenderMime.IRendererFactory[] {
  const services = makeServices(translation, tracker);

  class ViewWidget extends lab.Widget implements IRenderMime.IRenderer {
    private handle: ViewHandle | undefined;
    private turn = 0;
    private link: { dispose(): void } | undefined;
    constructor(private readonly mime: string) {
      super();
      this.node.addEventListener('focusin', keepKeys);
    }
    async renderModel(model: IRenderMime.IMimeModel): Promise<void> {
      this.release();
      const turn = (this.turn += 1);
      const handle = await mountWhenWanted(this.node, this.mime, model.data[this.mime], services);
      // The output may have gone, or hold something else, by the time that the view is loaded.
      if (this.isDisposed || turn !== this.turn) return handle.dispose();
      this.handle = handle;
      this.join();
    }
    /** An output may be made long before it is put into the page. */
    protected override onAfterAttach(): void {
      this.join();
    }
    private join(): void {
      if (this.handle && this.isAttached)
        this.link ??= linkToKernel(this.node, this.handle, tracker);
    }
    override dispose(): void {
      this.release();
      super.dispose();
    }
    private release(): void {
      this.link?.dispose();
      this.handle?.dispose();
      this.link = this.handle = undefined;
    }
  }

  return Object.values(MIME).map((mimeType) => ({
    safe: true,
    mimeTypes: [mimeType],
    defaultRank: 40,
    createRenderer: () => new ViewWidget(mimeType),
  }));
}

export type { Services };
