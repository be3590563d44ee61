import { pasted } from '../../../views/edit/pasted.js';
import type { SheetRow, Texts } from '../../../views/edit/sheet.js';

interface Source {
  /** Where the mark stands. */
  at(): { readonly row: SheetRow; readonly name: string; readonly index: number } | undefined;
  ticked(): readonly SheetRow[];
  /** Entries in the order of the grid's columns. */
  names(): readonly string[];
  ids(): readonly string[];
  paste(ids: readonly string[], rows: readonly Texts[]): void;
}

const inField = (event: Event) => (event.target as HTMLElement).closest('input, textarea, pre');

/** Copies entries and ticked readings as cells of a spreadsheet, and pastes such cells from where the mark stands. */
export function clipboard(root: HTMLElement, source: Source): void {
  root.addEventListener('paste', (event) => {
    const at = source.at();
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (inField(event) || !at || text === '') return;
    event.preventDefault();
    event.stopPropagation();
    const { named, cells } = pasted(text);
    if (named) return source.paste([], named);
    const names = source.names();
    const columns = names.slice(Math.max(0, names.indexOf(at.name)));
    const rows = cells.map((row) =>
      Object.fromEntries(
        row.slice(0, columns.length).map((cell, i) => [columns[i] as string, cell]),
      ),
    );
    source.paste(source.ids().slice(at.index), rows);
  });
  root.addEventListener('copy', (event) => {
    const at = source.at();
    if (inField(event) || !at || !event.clipboardData) return;
    const line = (row: SheetRow) =>
      source
        .names()
        .map((name) => row.texts[name] ?? '')
        .join('\t');
    const ticked = source.ticked();
    const text = ticked.length > 0 ? ticked.map(line).join('\n') : (at.row.texts[at.name] ?? '');
    event.clipboardData.setData('text/plain', text);
    event.preventDefault();
    event.stopPropagation();
  });
}
