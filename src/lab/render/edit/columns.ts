import type { ColDef } from 'ag-grid-community';
import { entryColumns } from '../../../log/amend/entry-names.js';
import type { EditData } from '../../../views/edit/edit-data.js';
import type { SheetRow } from '../../../views/edit/sheet.js';
import type { Services } from '../view.js';

/** Entries that a reading nearly always has: shown even where no reading has them yet. */
const USUAL = [
  'round',
  'sight',
  'utc',
  'body',
  'limb',
  'reading',
  'observer',
  'indexError',
  'eyeHeight',
  'remarks',
];
const ROOM_FOR_BOTH = '(min-width: 800px)';
const WIDTHS: Readonly<Record<string, number>> = {
  round: 148,
  sight: 56,
  utc: 152,
  watch: 152,
  body: 90,
  limb: 64,
  reading: 82,
  observer: 78,
  instrument: 100,
  indexError: 138,
  lat: 104,
  lon: 108,
  remarks: 220,
};

/** The head of an entry as files have it. */
export function headOf(name: string, data: EditData): string {
  const column = entryColumns.get(name);
  return column?.head ?? data.own.find((c) => c.key === name)?.head ?? name;
}

/** The columns of the grid. @param all with those that no reading has an entry in */
export function gridColumns(
  data: EditData,
  names: readonly string[],
  all: boolean,
  { t }: Services,
): ColDef<SheetRow>[] {
  const shown = names.filter((n) => all || USUAL.includes(n) || data.entries.includes(n));
  return [
    {
      colId: 'number',
      headerName: t('No.'),
      width: 54,
      // Which reading it is stays in sight, however far the entries are moved sideways.
      pinned: 'left',
      valueGetter: ({ data: row }) => (row?.id.startsWith('new') ? t('new') : row?.id),
      editable: false,
      cellClass: 'ch-n',
      headerTooltip: '',
    },
    ...shown.map((name): ColDef<SheetRow> => {
      const column = entryColumns.get(name);
      const isFigure = column?.align === 'right';
      return {
        colId: name,
        headerName: t(headOf(name, data)),
        width: WIDTHS[name] ?? 110,
        valueGetter: ({ data: row }) => row?.texts[name] ?? '',
        cellClass: isFigure ? 'ch-n' : '',
        headerClass: isFigure ? 'ch-edit-figure' : '',
        cellClassRules: {
          'ch-edit-draft': ({ data: row }) => row !== undefined && Object.hasOwn(row.drafts, name),
          'ch-edit-wrong': ({ data: row }) =>
            row?.findings.some((f) => f.refuse && f.name === name) ?? false,
        },
      };
    }),
    {
      colId: 'rejected',
      // In sight beside whatever is entered, where there is room for both.
      pinned: matchMedia(ROOM_FOR_BOTH).matches ? 'right' : null,
      headerName: t('not used, because'),
      width: 118,
      editable: false,
      valueGetter: ({ data: row }) => row?.rejected ?? '',
    },
  ];
}
