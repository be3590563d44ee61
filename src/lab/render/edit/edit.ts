import type { CellKeyDownEvent, ColDef, GridApi, GridOptions } from 'ag-grid-community';
import { checkEditData, type EditData } from '../../../views/edit/edit-data.js';
import { Sheet, type SheetRow, type Texts } from '../../../views/edit/sheet.js';
import { amendmentCode } from '../../../log/amend/write-code.js';
import { h } from '../dom.js';
import {
  liveView,
  type CodeCell,
  type Services,
  type ViewHandle,
  type ViewState,
} from '../view.js';
import { clipboard } from './clipboard.js';
import { codePane } from './code-pane.js';
import { gridColumns, headOf } from './columns.js';
import { DraftKeeper } from './drafts.js';
import { draftList } from './draft-list.js';
import { gridOptions } from './grid-options.js';
import { whenShown } from './when-shown.js';
import { toolbar } from './toolbar.js';

/** A sight log to be amended. @throws ViewDataError */
export async function mountEdit(
  host: HTMLElement,
  raw: unknown,
  services: Services,
): Promise<ViewHandle> {
  const data = checkEditData(raw);
  const { t } = services;
  if (!services.grid)
    throw new Error(
      t('this page carries no grid: open the notebook in JupyterLab to amend the log'),
    );
  const library = await services.grid();
  return new LogEditor(host, data, services, library).handle;
}

type Library = Awaited<ReturnType<NonNullable<Services['grid']>>>;

class LogEditor {
  readonly handle: ViewHandle;
  private readonly sheet: Sheet;
  private readonly api: GridApi<SheetRow>;
  private readonly variable = h('code');
  private readonly gridHost = h('div', { class: 'ch-edit-grid' });
  private readonly status = h('p', { class: 'ch-sub', role: 'status', 'aria-live': 'polite' });
  private readonly tools;
  private readonly open;
  private readonly pane;
  private readonly listeners = new Set<(state: ViewState) => void>();
  private readonly stopWaiting: () => void;
  private keeper: DraftKeeper | undefined;
  private cell: CodeCell | undefined;
  private isAll = false;
  private isForeign = false;

  constructor(
    private readonly host: HTMLElement,
    private data: EditData,
    private readonly services: Services,
    library: Library,
  ) {
    const { t } = services;
    this.sheet = new Sheet(data);
    this.variable.textContent = data.log;
    this.tools = toolbar(services, {
      undo: () => (this.sheet.undo(), this.changed(t('Undone.'))),
      redo: () => (this.sheet.redo(), this.changed(t('Done again.'))),
      add: () => this.startReading(),
      takeRefused: () => this.takeRefused(),
      reject: (reason) =>
        this.mark(this.sheet.reject(this.chosen(), reason), t('Not used; kept with the reason.')),
      accept: () => this.mark(this.sheet.accept(this.chosen()), t('Used again.')),
      group: (sight) => this.mark(this.sheet.group(this.chosen(), sight), t('Made one sight.')),
      columns: (all) => {
        this.isAll = all;
        this.api.setGridOption('columnDefs', this.columns());
      },
    });
    this.open = draftList(
      services,
      (id, name) => this.goTo(id, name),
      (name) => headOf(name, data),
    );
    this.pane = codePane(() => this.data, services);
    const root = h(
      'section',
      { class: 'ch ch-edit', 'aria-label': t('Sight log to be amended') },
      h('h3', {}, `${t('Sight log to be amended')}: `, this.variable),
      this.tools.element,
      this.gridHost,
      this.status,
      this.open.element,
      this.pane.element,
    );
    host.replaceChildren(root);
    // JupyterLab looks for this mark on what has the focus itself: without it, D twice in the grid deletes the cell.
    root.addEventListener('focusin', ({ target }) =>
      (target as HTMLElement).setAttribute('data-lm-suppress-shortcuts', 'true'),
    );
    root.addEventListener('keydown', (event) => this.tools.key(event));
    clipboard(root, {
      at: () => this.focused(),
      ticked: () => this.api.getSelectedRows(),
      names: () =>
        this.columns().flatMap(({ colId = '' }) =>
          this.sheet.names.includes(colId) ? [colId] : [],
        ),
      paste: (ids, rows) => {
        const taken = this.sheet.paste(ids, rows);
        this.changed(`${rows.length} ${t('rows pasted')}; ${taken} ${t('of them taken')}.`);
      },
      ids: () => this.sheet.rows().map((row) => row.id),
    });
    root.addEventListener('focusout', (event) => {
      if (!root.contains(event.relatedTarget as Node | null)) this.settle('');
    });
    this.api = library.createGrid(this.gridHost, this.options(library));
    this.stopWaiting = whenShown(host, services, (cell) => {
      this.cell = cell;
      this.resume();
    });
    this.handle = liveView(data.viewId, this.listeners, {
      state: () => this.state(),
      set: () => {},
      dispose: () => {
        this.stopWaiting();
        this.api.destroy();
        host.replaceChildren();
      },
    });
    this.show(
      `${data.rows.length} ${t('readings. Type over any entry; paste cells of a spreadsheet where the mark stands.')}`,
    );
  }

  private options({ theme }: Library): GridOptions<SheetRow> {
    return {
      theme,
      columnDefs: this.columns(),
      rowData: this.sheet.rows(),
      ...gridOptions(
        this.sheet.judge.bind(this.sheet),
        (name) => headOf(name, this.data),
        (id, texts) => this.enter([[id, texts]]),
      ),
      onCellFocused: ({ rowIndex }) => {
        const row =
          rowIndex === null ? undefined : this.api?.getDisplayedRowAtIndex(rowIndex)?.data;
        if (row) this.settle(row.id);
      },
      onCellKeyDown: (event) => this.clear(event as CellKeyDownEvent<SheetRow>),
    };
  }

  private columns(): ColDef<SheetRow>[] {
    return gridColumns(this.data, this.sheet.names, this.isAll, this.services);
  }

  private state(): ViewState {
    const { sheet } = this;
    return {
      code: sheet.code(),
      amendments: sheet.amendments.length,
      drafts: sheet.openDrafts().length,
    };
  }

  private resume(): void {
    const { sheet } = this;
    const log = this.cell?.variable(this.data.log) ?? this.data.log;
    const data = (this.data = sheet.data = { ...this.data, log });
    this.variable.textContent = log;
    const { t } = this.services;
    const place = this.cell?.place ?? location.pathname;
    this.keeper = new DraftKeeper(`amend:${place}:${data.log}:${data.as}`);
    const held = this.keeper.resume(this.cell?.find(data));
    this.isForeign = held === 'unreadable';
    if (held === 'unreadable')
      return this.show(
        t(
          'The cell of amendments was changed by hand. It stays as it is; new amendments are shown here as code to copy.',
        ),
      );
    if (!held || held.moves.length + held.drafts.length === 0) return this.show();
    const misfits = sheet.restore(held);
    this.open.misfits(
      misfits.map((m) => ({
        code: amendmentCode(data, [m.amendment]).split('\n')[2] ?? '',
        reason: m.reason,
      })),
    );
    this.changed(`${sheet.amendments.length} ${t('amendments are here again')}.`);
  }

  private enter(entries: readonly (readonly [string, Texts])[]): void {
    this.sheet.enter(entries);
    const last = entries.at(-1);
    const row = last && this.sheet.row(last[0]);
    const wrong = row?.findings.find((f) => f.refuse);
    this.changed(
      wrong && !row?.id.startsWith('new')
        ? `${this.services.t('Kept, but not taken')}: ${wrong.reason}`
        : undefined,
    );
  }

  private settle(except: string): void {
    const before = this.sheet.amendments.length;
    this.sheet.settle(except);
    if (this.sheet.amendments.length > before)
      this.changed(this.services.t('The new reading is in the log.'));
  }

  private mark(failure: string | null, done: string): void {
    if (failure !== null) return this.show(failure, true);
    this.api.deselectAll();
    this.changed(done);
  }

  /** Readings with a tick, or the one the mark stands in. */
  private chosen(): string[] {
    const ticked = this.api.getSelectedRows().map((row) => row.id);
    const focused = this.focused()?.row.id;
    return ticked.length > 0 ? ticked : focused ? [focused] : [];
  }

  private focused(): { row: SheetRow; name: string; index: number } | undefined {
    const cell = this.api.getFocusedCell();
    const row = cell ? this.api.getDisplayedRowAtIndex(cell.rowIndex)?.data : undefined;
    return cell && row ? { row, name: cell.column.getColId(), index: cell.rowIndex } : undefined;
  }

  private startReading(): void {
    this.settle('');
    this.goTo(this.sheet.blank, 'utc', true);
  }

  /** Shows the refused rows under the readings, with the mark on the first that is wrong. */
  private takeRefused(): void {
    this.settle('');
    const { t } = this.services;
    const last = this.sheet.rows().at(-2)?.id;
    this.sheet.takeRefused();
    this.changed(
      t('Refused rows stand under the readings. Mend what is marked; Undo takes them out again.'),
    );
    const rows = this.sheet.rows();
    const first = rows[rows.findIndex((row) => row.id === last) + 1];
    const wrong = first?.findings.find((f) => f.refuse)?.name;
    if (first && wrong) this.goTo(first.id, wrong);
  }

  private goTo(id: string, name: string, edit = false): void {
    const index = this.api.getRowNode(id)?.rowIndex ?? null;
    if (index === null) return;
    this.api.ensureIndexVisible(index);
    this.api.ensureColumnVisible(name);
    this.api.setFocusedCell(index, name);
    if (edit) this.api.startEditingCell({ rowIndex: index, colKey: name });
  }

  private clear({ event, data: row, column }: CellKeyDownEvent<SheetRow>): void {
    const key = (event as KeyboardEvent | null)?.key;
    const name = column.getColId();
    if (key !== 'Delete' || !row || !this.sheet.names.includes(name)) return;
    this.enter([[row.id, { [name]: '' }]]);
  }

  /** Shows what is there now, keeps it, and writes it into the notebook. */
  private changed(message?: string): void {
    const { sheet, data } = this;
    this.api.setGridOption('rowData', sheet.rows());
    this.api.refreshCells();
    const code = sheet.code();
    const isKept = this.keeper?.keep(sheet.kept(), code) ?? false;
    const isWritten = !this.isForeign && (this.cell?.write(data, code) ?? false);
    this.pane.show(code, isWritten, isKept);
    this.show(message);
    for (const listener of this.listeners) listener(this.state());
  }

  private show(message?: string, isWrong = false): void {
    const { sheet } = this;
    this.tools.show({
      undo: sheet.canUndo,
      redo: sheet.canRedo,
      refused: sheet.refused().length,
    });
    this.open.show(sheet.rows().filter((row) => Object.keys(row.drafts).length > 0));
    this.pane.show(sheet.code());
    this.status.classList.toggle('ch-flag', isWrong);
    if (message !== undefined) this.status.textContent = message;
  }
}
