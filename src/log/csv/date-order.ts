/** How a file writes dates that do not begin with the year: `13/05/2027`, or `05/13/2027`. */
export type DateOrder = 'day first' | 'month first';

const DATE = /^\s*(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})\b/;

/** A date of a file, where it stands. */
export interface DateText {
  readonly line: number;
  readonly text: string;
}

/** What the dates of a whole file say about their order: the first that can be read in one order only, for each order. */
export type OrderEvidence = { readonly [order in DateOrder]?: DateText };

/** Whether a text begins with a date in which day and month could be taken for each other by a reader. */
export const isOrderOpen = (text: string): boolean => DATE.test(text);

/** `13/05/2027 18:14` as `2027-05-13 18:14`; any other text as it is. An impossible month is left for the reader of times to refuse. */
export function yearFirst(text: string, order: DateOrder): string {
  return text.replace(DATE, (_, first: string, second: string, year: string) => {
    const [day, month] = order === 'day first' ? [first, second] : [second, first];
    return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  });
}

/** Looks for dates that have only one order, as 13/05/2027 has; where both orders are shown the file mixes them. */
export function orderEvidence(dates: Iterable<DateText>): OrderEvidence {
  const found: { [order in DateOrder]?: DateText } = {};
  for (const date of dates) {
    const m = DATE.exec(date.text);
    const [first, second] = [Number(m?.[1]), Number(m?.[2])];
    if (first > 12 && second <= 12) found['day first'] ??= date;
    if (second > 12 && first <= 12) found['month first'] ??= date;
    if (found['day first'] && found['month first']) break;
  }
  return found;
}

/** The order that all dates of a file agree with, if one date shows it. */
export function orderShown(evidence: OrderEvidence): DateOrder | undefined {
  const orders = Object.keys(evidence) as DateOrder[];
  return orders.length === 1 ? orders[0] : undefined;
}
