/** What a cell holds once it is understood. */
export type CellValue = string | number | boolean | null;

/**
 * One column of a sight log: its key in the table, its head in a file and how a cell is read. Keys carry their
 * unit (`eyeHeightM`); beside a quantity stands the text as it was written (`eyeHeightText`).
 */
export interface LogColumn {
  readonly key: string;
  /** Key of the column with the text as written, for a quantity. */
  readonly textKey?: string;
  /** The head in our own files, without the unit. */
  readonly head: string;
  /** Other heads under which people keep the same thing. */
  readonly aliases?: readonly string[];
  /** Unit that stands in the head of our own files; a bare number under it is in this unit. */
  readonly unit?: string;
  /** Every unit a head may name, as it is put behind a bare number. */
  readonly units?: readonly string[];
  /** Whether the cell holds figures, so that a comma in it can be a decimal comma. */
  readonly numeric?: boolean;
  /**
   * Reads a cell that is not empty. @throws EntryError naming the mistake and the right form.
   */
  readonly read: (text: string) => CellValue;
  /** Writes a value whose text is not known. */
  readonly print?: (value: number) => string;
  readonly align: 'left' | 'right' | 'centre';
  /** One sentence for the description of the format. */
  readonly about: string;
}
