import { h } from '../../lab/render/dom.js';

export interface Actions {
  runAll(): void;
  stop(): void;
  /** Shows the original text of every cell, or the reader's own copy. */
  show(original: boolean): void;
  reset(): void;
  save(): void;
  open(text: string, name: string): void;
  /** Takes over what was written in another edition. */
  bring(): void;
}

/** The page's buttons, and the line that says what the reader is looking at. */
export class Toolbar {
  readonly element: HTMLElement;
  readonly #state = h('span', { class: 'state', role: 'status' });
  readonly #which: HTMLButtonElement;
  readonly #reset: HTMLButtonElement;
  readonly #message = h('p', { class: 'message', role: 'alert' });
  readonly #bring: HTMLButtonElement;
  #original = false;
  #asked = false;

  constructor(private readonly actions: Actions) {
    this.#which = button('Show the original', () => this.#toggle());
    this.#bring = button('Bring your answers here', () => actions.bring());
    this.#bring.hidden = true;
    this.#reset = button('Reset to the original', () => this.#askReset());
    const file = h('input', {
      type: 'file',
      accept: '.json,application/json',
      class: 'file',
      'aria-label': 'Open a file of answers',
    });
    file.addEventListener('change', () => void this.#open(file));
    this.element = h(
      'div',
      { class: 'toolbar', role: 'toolbar', 'aria-label': 'Page' },
      button('Run all cells', () => actions.runAll()),
      button('Stop', () => actions.stop()),
      button('Save to a file', () => actions.save()),
      h('label', { class: 'open' }, 'Open a file', file),
      this.#which,
      this.#reset,
      this.#state,
      this.#message,
      this.#bring,
    );
  }

  /** @param changed how many cells differ from the original @param lasting whether the browser keeps them */
  tell(changed: number, lasting: boolean): void {
    // Once something is written here, older answers are no longer offered.
    if (changed > 0) this.#bring.hidden = true;
    this.#which.disabled = this.#reset.disabled = changed === 0;
    if (changed === 0) this.#original = false;
    this.#which.textContent = this.#original ? 'Show your copy' : 'Show the original';
    const cells = `${changed} cell${changed === 1 ? '' : 's'} changed`;
    this.#state.textContent = this.#original
      ? 'The original'
      : changed === 0
        ? 'The original; nothing changed yet'
        : `Your copy: ${cells}${lasting ? ', kept in this browser' : ', not kept here: save it to a file'}`;
  }
  /** One whole sentence about what went wrong, or nothing. */
  say(text: string): void {
    this.#message.textContent = text;
  }
  /** Offers what the reader wrote in another edition. */
  offer(): void {
    this.say('This lesson was published anew. What you wrote in the edition before is still here.');
    this.#bring.hidden = false;
  }
  get original(): boolean {
    return this.#original;
  }

  #toggle(): void {
    this.#original = !this.#original;
    this.actions.show(this.#original);
  }
  /** A second press within a few seconds does it: your work is not lost by one slip of the finger. */
  #askReset(): void {
    if (this.#asked) {
      this.#asked = false;
      this.#original = false;
      this.actions.reset();
    } else {
      this.#asked = true;
      setTimeout(() => {
        this.#asked = false;
        this.#reset.textContent = 'Reset to the original';
      }, 5000);
    }
    this.#reset.textContent = this.#asked
      ? 'Press again to lose your copy'
      : 'Reset to the original';
  }
  async #open(file: HTMLInputElement): Promise<void> {
    const chosen = file.files?.[0];
    file.value = '';
    if (chosen) this.actions.open(await chosen.text(), chosen.name);
  }
}

const button = (text: string, press: () => void): HTMLButtonElement =>
  h('button', { type: 'button', onclick: press }, text);
