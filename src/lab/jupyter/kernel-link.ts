import type { ViewHandle } from '../render/index.js';
import type { Comm, NotebookTracker } from './host.js';

/** The comm target that a kernel registers for views whose state code can read and set. */
export const VIEW_TARGET = 'cocked-hat.view';

type FromKernel = { readonly set?: unknown };

/** The notebook that shows this element, once the element is in the page. */
function kernelAt(node: HTMLElement, tracker: NotebookTracker) {
  return tracker.find((panel) => panel.node.contains(node))?.sessionContext.session?.kernel;
}

/** A kernel that has died or is starting again takes no messages; the view goes on by itself. */
function quietly(say: () => unknown): void {
  try {
    say();
  } catch {
    // JupyterLab itself tells the reader that the kernel is gone.
  }
}

/**
 * Joins a shown view to its value in the kernel: what the reader moves goes there, what code sets comes back.
 * Without a kernel, or with one that does not know the target, the view goes on by itself.
 */
export function linkToKernel(
  node: HTMLElement,
  handle: ViewHandle,
  tracker: NotebookTracker | null,
): { dispose(): void } {
  let comm: Comm | undefined;
  let stop: (() => void) | undefined;
  const open = () => {
    const { viewId } = handle;
    const kernel = tracker && viewId ? kernelAt(node, tracker) : undefined;
    if (!kernel || !viewId) return;
    comm = kernel.createComm(VIEW_TARGET);
    comm.onMsg = ({ content }) => handle.set((content.data as FromKernel).set);
    comm.onClose = () => (comm = undefined);
    comm.open({ viewId, state: handle.state() });
    stop = handle.onChange((state) => quietly(() => comm?.send({ state })));
  };
  const timer = setTimeout(open, 0);
  return {
    dispose() {
      clearTimeout(timer);
      stop?.();
      quietly(() => comm?.close());
    },
  };
}
