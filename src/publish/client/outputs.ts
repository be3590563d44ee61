import DOMPurify from 'dompurify';
import type { CellEvent, Outcome } from '../../cells/index.js';
import { mountView, type Services, type ViewHandle } from '../../lab/render/index.js';
import { h } from '../../lab/render/dom.js';
import { MIME } from '../../views/index.js';
import type { PageOutput } from './page-data.js';

const VIEWS: ReadonlySet<string> = new Set(
  Object.entries(MIME).flatMap(([name, mime]) => (name === 'plotly' ? [] : [mime])),
);

const MOST_PRINTED = 100_000;

/** The outputs of one cell, as they come. */
export class Outputs {
  readonly #views: ViewHandle[] = [];
  readonly #shown = new Map<string, HTMLElement>();
  #clearing = false;
  /** Characters that may still be printed: a loop that prints without end must not fill the page. */
  #room = MOST_PRINTED;

  constructor(
    private readonly host: HTMLElement,
    private readonly services: Services,
  ) {}

  clear(): void {
    for (const view of this.#views.splice(0)) view.dispose();
    this.#shown.clear();
    this.#room = MOST_PRINTED;
    this.host.replaceChildren();
  }
  /** What the page was published with. Static HTML stands there already; only views are woken. */
  wake(outputs: readonly PageOutput[]): void {
    const places = [...this.host.children];
    outputs.forEach((output, i) => {
      const place = places[i];
      const mime = output.type === 'data' ? viewOf(output.data) : undefined;
      if (output.type === 'data' && mime && place instanceof HTMLElement)
        void this.#mount(place, mime, output.data[mime]);
    });
  }
  take(event: CellEvent): void {
    if (event.type === 'stream') this.#stream(event.name, event.text);
    else if (event.type === 'display') this.#display(event.data, event.id, event.update);
    else if (event.type === 'error') this.#error(event.error.traceback.join('\n'));
    else if (event.type === 'clear') {
      if (event.wait) this.#clearing = true;
      else this.clear();
    }
  }
  /** Says why the cell was not run. */
  say(text: string): void {
    this.clear();
    this.#note(text);
  }
  end(outcome: Outcome | null): void {
    if (!outcome)
      this.#note('Stopped. The values of all cells are gone; run them again from the top.');
    else if (outcome.status === 'error') this.#error(outcome.error.traceback.join('\n'));
    else if (outcome.result) this.#display(outcome.result.data, undefined, false);
  }

  #add(element: HTMLElement): HTMLElement {
    if (this.#clearing) this.clear();
    this.#clearing = false;
    this.host.append(element);
    return element;
  }
  #note(text: string): void {
    this.#add(h('p', { class: 'note', role: 'status' }, text));
  }
  #stream(name: string, whole: string): void {
    if (this.#room <= 0) return;
    const text = whole.slice(0, this.#room);
    this.#room -= whole.length;
    const last = this.host.lastElementChild;
    if (!this.#clearing && last?.classList.contains(name)) last.append(unstyled(text));
    else this.#add(h('pre', { class: `stream ${name}` }, unstyled(text)));
    if (this.#room <= 0)
      this.#note('This cell prints more than a page can hold; the rest is left out.');
  }
  #error(traceback: string): void {
    this.#add(h('pre', { class: 'error', role: 'alert' }, unstyled(traceback)));
  }
  #display(data: Readonly<Record<string, unknown>>, id: string | undefined, update: boolean): void {
    const known = id === undefined ? undefined : this.#shown.get(id);
    if (update && !known) return;
    const place = update && known ? known : this.#add(h('div', { class: 'output' }));
    if (id !== undefined) this.#shown.set(id, place);
    const mime = viewOf(data);
    if (mime) void this.#mount(place, mime, data[mime]);
    else showStill(place, data);
  }
  async #mount(place: HTMLElement, mime: string, data: unknown): Promise<void> {
    const host = h('div');
    place.replaceChildren(host);
    this.#views.push(await mountView(host, mime, data, this.services));
  }
}

const viewOf = (data: Readonly<Record<string, unknown>>): string | undefined =>
  Object.keys(data).find((mime) => VIEWS.has(mime));
const textOf = (value: unknown): string => (Array.isArray(value) ? value.join('') : String(value));

/** Links stay within the page, and nothing is asked of another machine. */
const CLEANING = {
  RETURN_DOM_FRAGMENT: true as const,
  ALLOWED_URI_REGEXP: /^(?:#|data:image\/(?:png|jpeg|gif|svg\+xml);)/i,
  FORBID_TAGS: ['form', 'input', 'button', 'style'],
};

/** The richest of what needs no program: SVG, HTML, pictures, text. Cleaned, since cells may show anything. */
function showStill(place: HTMLElement, data: Readonly<Record<string, unknown>>): void {
  const markup = data['image/svg+xml'] ?? data['text/html'];
  const picture = ['image/png', 'image/jpeg', 'image/gif'].find((mime) => data[mime]);
  if (markup !== undefined) place.replaceChildren(DOMPurify.sanitize(textOf(markup), CLEANING));
  else if (picture)
    place.replaceChildren(
      h('img', {
        src: `data:${picture};base64,${textOf(data[picture])}`,
        alt: textOf(data['text/plain'] ?? ''),
      }),
    );
  else place.replaceChildren(h('pre', {}, unstyled(textOf(data['text/plain'] ?? ''))));
}

/** Text without the terminal's colour codes. */

const unstyled = (text: string): string => text.replace(/\u001b\[[0-9;]*m/g, '');
