import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { typescript } from '@codemirror/legacy-modes/mode/javascript';
import {
  bracketMatching,
  HighlightStyle,
  indentOnInput,
  StreamLanguage,
  syntaxHighlighting,
} from '@codemirror/language';
import { EditorState } from '@codemirror/state';
import { drawSelection, EditorView, keymap } from '@codemirror/view';
import { tags } from '@lezer/highlight';

export interface EditorOptions {
  readonly text: string;
  readonly label: string;
  readonly readOnly: boolean;
  onChange(text: string): void;
  /** Shift-Enter: run and go on; Control- or Command-Enter: run and stay. */
  onRun(goOn: boolean): void;
}

/** Words and figures by role; colours are variables of the page, so that every theme holds. */
const highlight = HighlightStyle.define([
  { tag: [tags.keyword, tags.modifier, tags.operatorKeyword], class: 'tok-word' },
  { tag: [tags.string, tags.special(tags.string)], class: 'tok-text' },
  { tag: [tags.number, tags.bool, tags.null], class: 'tok-figure' },
  { tag: tags.comment, class: 'tok-comment' },
  { tag: [tags.typeName, tags.className], class: 'tok-type' },
]);

/** A TypeScript editor for one cell. */
export class Editor {
  readonly #view: EditorView;

  constructor(parent: HTMLElement, { text, label, readOnly, onChange, onRun }: EditorOptions) {
    const run = (goOn: boolean) => () => {
      onRun(goOn);
      return true;
    };
    this.#view = new EditorView({
      parent,
      state: EditorState.create({
        doc: text,
        extensions: [
          keymap.of([
            { key: 'Shift-Enter', run: run(true) },
            { key: 'Mod-Enter', run: run(false) },
            // Tab goes on to the next control: whoever has no mouse must get past a cell, and unchanged.
            ...historyKeymap,
            ...defaultKeymap,
          ]),
          history(),
          drawSelection(),
          indentOnInput(),
          bracketMatching(),
          StreamLanguage.define(typescript),
          syntaxHighlighting(highlight),
          EditorView.lineWrapping,
          EditorState.readOnly.of(readOnly),
          EditorView.contentAttributes.of({ 'aria-label': label }),
          EditorView.updateListener.of((update) => {
            if (update.docChanged && this.#telling) onChange(this.text);
          }),
        ],
      }),
    });
  }
  #telling = true;

  get text(): string {
    return this.#view.state.doc.toString();
  }
  /** Puts another text in without telling `onChange`. */
  set text(text: string) {
    if (text === this.text) return;
    this.#telling = false;
    this.#view.dispatch({ changes: { from: 0, to: this.#view.state.doc.length, insert: text } });
    this.#telling = true;
  }
  focus(): void {
    this.#view.focus();
  }
}
