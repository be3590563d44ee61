import type { ICellEditorComp, ICellEditorParams } from 'ag-grid-community';
import type { SheetRow } from '../../../views/edit/sheet.js';
import { h } from '../dom.js';

/** Why a text cannot stand in the entry of a row; null when it can. */
export type Judge = (id: string, name: string, text: string) => string | null;

let serial = 0;

/** One entry being typed: its field, and beside it why it cannot be taken as it stands. */
export function cellEditor(
  judge: Judge,
  label: (name: string) => string,
): new () => ICellEditorComp {
  return class implements ICellEditorComp {
    private field!: HTMLInputElement;
    private element!: HTMLElement;

    init({ data, column, value, eventKey }: ICellEditorParams<SheetRow>): void {
      const name = column.getColId();
      const id = `ch-edit-entry-${(serial += 1)}`;
      const why = h('p', { class: 'ch-edit-why', id, role: 'status' });
      const field = h('input', {
        type: 'text',
        'aria-label': label(name),
        'aria-describedby': id,
        spellcheck: 'false',
        autocomplete: 'off',
        oninput: () => look(),
      });
      const look = () => {
        const reason = judge(data.id, name, field.value);
        field.setAttribute('aria-invalid', String(reason !== null));
        why.textContent = reason ?? '';
      };
      field.value = eventKey && eventKey.length === 1 ? eventKey : String(value ?? '');
      field.style.minWidth = `${column.getActualWidth()}px`;
      this.field = field;
      this.element = h('div', { class: 'ch-edit-entry' }, field, why);
      look();
    }
    getGui(): HTMLElement {
      return this.element;
    }
    afterGuiAttached(): void {
      this.field.focus();
      this.field.setSelectionRange(this.field.value.length, this.field.value.length);
    }
    getValue(): string {
      return this.field.value;
    }
    isPopup(): boolean {
      return true;
    }
    getPopupPosition(): 'over' {
      return 'over';
    }
  };
}
