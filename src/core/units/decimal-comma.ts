/** A figure with its decimal comma turned into a point: `12,4′` becomes `12.4′`. Any other text stays as it is. */
export const withDecimalPoint = (text: string): string => text.replace(DECIMAL_COMMA, '$1.$2');

/** Whether a comma stands between two figures with nothing else between them. */
export const hasDecimalComma = (text: string): boolean => DECIMAL_COMMA.test(text);

const DECIMAL_COMMA = /(\d),(\d)/;
