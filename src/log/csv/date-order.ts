/** How a file writes dates that do not begin with the year: `13/05/2027`, or `05/13/2027`. */
export type DateOrder = 'day first' | 'month first';

const DATE = /^\s*(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})\b/;

/** Whether a text begins with a date in which day and month could be taken for each other by a reader. */
export const isOrderOpen = (text: string): boolean => DATE.test(text);

/** `13/05/2027 18:14` as `2027-05-13 18:14`; any other text as it is. An impossible month is left for the reader of times to refuse. */
export function yearFirst(text: string, order: DateOrder): string {
  return text.replace(DATE, (_, first: string, second: string, year: string) => {
    const [day, month] = order === 'day first' ? [first, second] : [second, first];
    return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  });
}
