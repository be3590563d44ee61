/**
 * Text whose figures stay with what belongs to them at the end of a line: `16°32.7′ N` with its letter, `5.7 nm` with its unit.
 * Only for the page: what is copied has plain spaces.
 */
export const unbroken = (text: string): string =>
  text
    .replace(/([′°″]) (?=[NSEW]\b)/g, '$1\u00a0')
    .replace(/(\d) (?=(?:nm|kn|m|s|min|h|hPa|°C|UTC|%|σ)(?![\w]))/g, '$1\u00a0')
    .replace(/([±<] )(?=\d)/g, (sign) => sign.replace(' ', '\u00a0'));
