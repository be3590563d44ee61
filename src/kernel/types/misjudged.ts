/** Complaints of TypeScript 5.0.4 in tslab's set-up about cells that are right, with the reason. */
const MISJUDGED: Readonly<Record<number, string>> = {
  1103: 'for await at the top of a cell is fine: a cell is a module body',
  1431: 'for await at the top of a cell is fine: a cell is a module body',
  1432: 'for await at the top of a cell is fine: the target is ES2022',
  1375: 'await at the top of a cell is fine: a cell is a module body',
  1378: 'await at the top of a cell is fine: the target is ES2022',
};

/** Complaints about the declaration file of a cell, which nobody reads, are numbered 4000 to 4999. */
export function isMisjudged({ code }: { readonly code: number }): boolean {
  return code in MISJUDGED || (code >= 4000 && code < 5000);
}
