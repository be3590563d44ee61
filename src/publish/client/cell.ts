import type { Services } from '../../lab/render/index.js';
import { h } from '../../lab/render/dom.js';
import { Editor } from './editor.js';
import { Outputs } from './outputs.js';
import type { PageCell } from './page-data.js';
import type { Store } from './store.js';
import type { WorkerLink } from './worker-link.js';

/** What a screen reader calls the cells that a student looks for. */
const NAMES: Partial<Record<PageCell['role'], string>> = {
  name: 'your name',
  answer: 'your answer',
  check: 'the check',
};

/** One code cell of the page: its editor, its run button, its outputs. */
export class CodeCell {
  readonly #editor: Editor;
  readonly #outputs: Outputs;
  readonly #count: HTMLElement;
  readonly #button: HTMLButtonElement;
  #ran = { life: 0, text: '' };

  constructor(
    readonly section: HTMLElement,
    readonly cell: PageCell,
    private readonly store: Store,
    private readonly link: WorkerLink,
    services: Services,
    /** Its place among the code cells, from 1. */
    number: number,
    on: { change(): void; run(cell: CodeCell, goOn: boolean): void },
  ) {
    const still = section.querySelector('pre.source') as HTMLElement;
    const place = h('div', { class: 'editor' });
    still.replaceWith(place);
    const name = NAMES[cell.role] ?? `cell ${number}`;
    const locked = cell.role === 'given' || cell.role === 'check';
    this.#editor = new Editor(place, {
      text: store.get(cell.id) ?? cell.source,
      label: `${name}${locked ? ', given' : ''}`,
      readOnly: locked,
      onChange: (text) => {
        store.set(cell.id, text);
        on.change();
      },
      onRun: (goOn) => on.run(this, goOn),
    });
    this.#button = h(
      'button',
      {
        type: 'button',
        class: 'run',
        'aria-label': `Run: ${name}`,
        onclick: () => on.run(this, false),
      },
      'Run',
    );
    this.#count = h('span', { class: 'count', 'aria-live': 'polite' });
    section.prepend(
      h(
        'div',
        { class: 'bar' },
        this.#button,
        this.#count,
        locked ? h('span', { class: 'given' }, 'given') : null,
      ),
    );
    this.#outputs = new Outputs(section.querySelector('.outputs') as HTMLElement, services);
    this.#outputs.wake(cell.outputs);
  }

  /** Shows the original text, not to be edited there, or the reader's own. */
  show(original: boolean): void {
    this.#editor.text = original
      ? this.cell.source
      : (this.store.get(this.cell.id) ?? this.cell.source);
  }
  /** Whether it has run, or runs, in the present worker as it stands now. */
  get isFresh(): boolean {
    const { life, text } = this.#ran;
    return this.link.alive && life === this.link.life && text === this.#editor.text;
  }
  /** @returns whether the cell ended without an error */
  async run(): Promise<boolean> {
    this.link.start();
    this.#ran = { life: this.link.life, text: this.#editor.text };
    this.#outputs.clear();
    this.#count.textContent = 'runs';
    this.#button.disabled = true;
    const outcome = await this.link.run(this.#editor.text, (event) => this.#outputs.take(event));
    this.#outputs.end(outcome);
    this.#button.disabled = false;
    this.#count.textContent = !outcome ? 'stopped' : outcome.status === 'ok' ? 'has run' : 'failed';
    return outcome?.status === 'ok';
  }
  /** Whether the cell failed when the page was published, and so is meant to. */
  get isMeantToFail(): boolean {
    return this.cell.outputs.some(({ type }) => type === 'error');
  }
  /** Says that a cell above has to be mended first. */
  hold(): void {
    this.#count.textContent = '';
    this.#outputs.say('Not run: a cell above failed. Mend that one first.');
  }
  /** Its outputs belong to numbers that are no longer there. */
  forget(): void {
    this.#ran = { life: 0, text: '' };
    this.#outputs.clear();
    this.#count.textContent = '';
  }
  focus(): void {
    this.#editor.focus();
    this.section.scrollIntoView({ block: 'nearest' });
  }
}
