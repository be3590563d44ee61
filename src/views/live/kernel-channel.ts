import type { View } from './view.js';

/** The comm target under which pages join their views to values in the kernel. */
export const VIEW_TARGET = 'cocked-hat.view';

export interface ViewChannel {
  send(data: unknown): void;
}

interface KernelComm extends ViewChannel {
  onMessage: ((message: { readonly data: unknown }) => void) | null;
  onClose: (() => void) | null;
}

interface KernelComms {
  register(
    target: string,
    answer: (comm: KernelComm, opened: { readonly data: unknown }) => void,
  ): void;
}

type Opened = { readonly viewId?: unknown; readonly state?: unknown } | null | undefined;

/** Views shown in this session, found by id; a view that nothing else holds is let go. */
const shown = new Map<string, WeakRef<View>>();

function answer(comm: KernelComm, { data }: { readonly data: unknown }): void {
  const { viewId, state } = (data as Opened) ?? {};
  const view = typeof viewId === 'string' ? shown.get(viewId)?.deref() : undefined;
  if (!view) return;
  comm.onMessage = (message) => view.receive((message.data as Opened)?.state);
  comm.onClose = () => view.disconnect(comm);
  view.connect(comm, state);
}

/** Lets pages find the view, where the kernel has comms; elsewhere the view just shows. */
export function joinKernel(view: View): void {
  shown.set(view.viewId, new WeakRef(view));
  const { kernel } = globalThis as { kernel?: { comms?: KernelComms } };
  kernel?.comms?.register(VIEW_TARGET, answer);
}
