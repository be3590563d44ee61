import type { IRenderMime } from '@jupyterlab/rendermime-interfaces';
import { MIME } from '../../views/mime.js';
import { mountView, type ViewHandle } from '../render/index.js';
import type { Services } from '../render/index.js';
import type { Lab, NotebookTracker, TranslatorService } from './host.js';
import { linkToKernel } from './kernel-link.js';
import { makeServices } from './services.js';

/** One renderer factory for each of our MIME types and for plotly figures. */
export function makeFactories(
  lab: Lab,
  translation: TranslatorService | null,
  tracker: NotebookTracker | null,
): IRenderMime.IRendererFactory[] {
  const services = makeServices(translation, tracker);

  class ViewWidget extends lab.Widget implements IRenderMime.IRenderer {
    private handle: ViewHandle | undefined;
    private link: { dispose(): void } | undefined;
    constructor(private readonly mime: string) {
      super();
    }
    async renderModel(model: IRenderMime.IMimeModel): Promise<void> {
      this.release();
      this.handle = await mountView(this.node, this.mime, model.data[this.mime], services);
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
