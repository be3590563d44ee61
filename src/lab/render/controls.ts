import { h } from './dom.js';

export interface FigureControlOptions {
  readonly label: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly entered: number;
  /** What stands after the number for the reader: `on the arc`. */
  readonly note?: (value: number) => string;
  /** How the figure is written and read where it is no plain number; `read` throws on what it cannot read. */
  readonly entry?: { write(value: number): string; read(text: string): number };
  readonly onMove: (value: number) => void;
}

export interface FigureControl {
  readonly element: HTMLElement;
  set(value: number): void;
}

let serial = 0;

/** A figure that can be slid or typed: a labelled range and a number with its unit. */
export function figureControl(o: FigureControlOptions): FigureControl {
  const id = `ch-figure-${(serial += 1)}`;
  const bounds = { min: o.least, max: o.most, step: o.step };
  const slider = h('input', { type: 'range', ...bounds, 'aria-label': o.label, tabindex: -1 });
  const { entry } = o;
  const number = entry
    ? h('input', { type: 'text', id, autocomplete: 'off' })
    : h('input', { type: 'number', ...bounds, step: 'any', id, inputmode: 'decimal' });
  const note = h('span', { class: 'ch-sub ch-figure-note' });
  const show = (value: number, from?: HTMLElement) => {
    const shown = String(Number(value.toFixed(2)));
    if (from !== slider) slider.value = shown;
    if (from !== number) number.value = entry?.write(value) ?? shown;
    if (entry) slider.setAttribute('aria-valuetext', entry.write(value));
    note.textContent = o.note?.(value) ?? '';
    number.removeAttribute('aria-invalid');
  };
  const refuse = (why: string) => {
    number.setAttribute('aria-invalid', 'true');
    note.textContent = why;
  };
  const moved = (from: HTMLInputElement) => {
    let value = from.valueAsNumber;
    if (entry && from === number)
      try {
        value = entry.read(from.value);
      } catch (error) {
        return refuse(error instanceof Error ? error.message : String(error));
      }
    if (!Number.isFinite(value) || value < o.least || value > o.most) {
      const [least, most] = [o.least, o.most].map((end) => entry?.write(end) ?? String(end));
      return refuse(`${least} … ${most} ${o.unit}`.trim());
    }
    show(value, from);
    o.onMove(value);
  };
  slider.addEventListener('input', () => moved(slider));
  number.addEventListener('input', () => moved(number));
  show(o.entered);
  return {
    element: h(
      'div',
      { class: 'ch-figure' },
      h('span', {}, h('label', { for: id }, o.label), note),
      h('span', { class: 'ch-figure-number' }, number, o.unit && ` ${o.unit}`),
      slider,
    ),
    set: (value) => show(value),
  };
}

export interface ChoiceControl {
  readonly element: HTMLElement;
  set(value: string): void;
}

/** One of a few, as a labelled list. */
export function choiceControl(
  label: string,
  choices: readonly (readonly [value: string, text: string])[],
  entered: string,
  onMove: (value: string) => void,
): ChoiceControl {
  const id = `ch-figure-${(serial += 1)}`;
  const select = h(
    'select',
    { id, onchange: () => onMove(select.value) },
    ...choices.map(([value, text]) => h('option', { value }, text)),
  );
  select.value = entered;
  return {
    element: h('div', { class: 'ch-figure' }, h('label', { for: id }, label), select),
    set: (value) => {
      select.value = value;
    },
  };
}

/** A switch: a labelled checkbox. */
export function switchControl(
  label: string,
  isOn: boolean,
  onMove: (isOn: boolean) => void,
): { readonly element: HTMLElement; set(isOn: boolean): void } {
  const box = h('input', { type: 'checkbox', onchange: () => onMove(box.checked) });
  box.checked = isOn;
  return {
    element: h('label', { class: 'ch-switch' }, box, ` ${label}`),
    set: (value) => {
      box.checked = value;
    },
  };
}

/** A button that puts a text on the clipboard and says so. */
export function copyButton(label: string, done: string, text: () => string): HTMLButtonElement {
  const button = h(
    'button',
    {
      type: 'button',
      onclick: async () => {
        await navigator.clipboard.writeText(text());
        button.textContent = done;
        setTimeout(() => (button.textContent = label), 1500);
      },
    },
    label,
  );
  return button;
}
