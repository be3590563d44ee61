const paint = (code: number) => (text: string) => `\x1b[${code}m${text}\x1b[39m`;

/** Colours of error reports, in the codes that notebooks and terminals understand. */
export const red = paint(31);
export const green = paint(32);
export const cyan = paint(36);
