/** The grid library as the editor needs it: the few modules of it that are used, loaded when the first log is edited. */
import {
  CellStyleModule,
  ClientSideRowModelModule,
  createGrid,
  CustomEditorModule,
  EventApiModule,
  ModuleRegistry,
  RowApiModule,
  RowSelectionModule,
  RowStyleModule,
  ScrollApiModule,
  ColumnApiModule,
  themeQuartz,
} from 'ag-grid-community';

ModuleRegistry.registerModules([
  CellStyleModule,
  ClientSideRowModelModule,
  CustomEditorModule,
  EventApiModule,
  RowApiModule,
  RowSelectionModule,
  RowStyleModule,
  ScrollApiModule,
  ColumnApiModule,
]);

/** The grid in the roles of our views, so that it follows every theme. */
export const theme = themeQuartz.withParams({
  // Scrollbars and fields of a dark page are dark.
  browserColorScheme: 'inherit',
  backgroundColor: 'var(--ch-paper)',
  foregroundColor: 'var(--ch-ink)',
  textColor: 'var(--ch-ink)',
  headerTextColor: 'var(--ch-faint)',
  headerBackgroundColor: 'var(--ch-paper)',
  chromeBackgroundColor: 'var(--ch-panel)',
  borderColor: 'var(--ch-rule)',
  accentColor: 'var(--ch-accent)',
  rowHoverColor: 'var(--ch-panel)',
  selectedRowBackgroundColor: 'var(--ch-panel)',
  oddRowBackgroundColor: 'var(--ch-paper)',
  rangeSelectionBorderColor: 'var(--ch-accent)',
  checkboxCheckedShapeColor: 'var(--ch-on-accent)',
  checkboxUncheckedBorderColor: 'var(--ch-faint)',
  checkboxUncheckedBackgroundColor: 'var(--ch-paper)',
  fontFamily: 'inherit',
  fontSize: '0.95em',
  headerFontSize: '0.88em',
  headerFontWeight: 500,
  rowHeight: 28,
  headerHeight: 30,
  cellHorizontalPadding: 8,
  wrapperBorder: false,
  wrapperBorderRadius: 0,
  borderRadius: 3,
});

export { createGrid };
