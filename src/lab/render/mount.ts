import { h } from './dom.js';
import { ensureStyle } from './style.js';
import type { Mount, Services, ViewHandle } from './view.js';
import { stillView } from './view.js';

const SHOWN_CHARS = 2000;

function source(data: unknown): string {
  try {
    const text = JSON.stringify(data, null, 1) ?? String(data);
    return text.length > SHOWN_CHARS ? `${text.slice(0, SHOWN_CHARS)}…` : text;
  } catch {
    return String(data);
  }
}

/** What is shown when the data of a view cannot be read: why, and the data as text. */
function showUnreadable(host: HTMLElement, error: unknown, data: unknown): ViewHandle {
  const message = error instanceof Error ? error.message : String(error);
  host.replaceChildren(
    h(
      'div',
      { class: 'ch', role: 'alert' },
      h('p', { class: 'ch-flag' }, message),
      h('pre', { class: 'ch-error' }, source(data)),
    ),
  );
  return stillView(() => host.replaceChildren());
}

/**
 * Shows view data of that MIME type in `host`. Data may come from anyone: they are checked first, shown as text
 * only, and what cannot be read is named.
 */
export type MountView = (
  host: HTMLElement,
  mime: string,
  data: unknown,
  services: Services,
) => Promise<ViewHandle>;

/** What shows views, with the mount that `find` has for a MIME type. */
export const mountWith =
  (find: (mime: string) => Mount | Promise<Mount> | undefined): MountView =>
  async (host, mime, data, services) => {
    ensureStyle(host.ownerDocument);
    try {
      const mount = await find(mime);
      if (!mount) throw new Error(`no view is known for ${mime}`);
      return await mount(host, data, services);
    } catch (error) {
      return showUnreadable(host, error, data);
    }
  };
