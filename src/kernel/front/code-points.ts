/** Jupyter counts cursor positions in Unicode code points, JavaScript in UTF-16 units. */
export function toUnits(text: string, codePoints: number): number {
  let units = 0;
  for (let n = 0; n < codePoints && units < text.length; n++)
    units += (text.codePointAt(units) ?? 0) > 0xffff ? 2 : 1;
  return units;
}

export function toCodePoints(text: string, units: number): number {
  let count = 0;
  for (let at = 0; at < units; count++) at += (text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1;
  return count;
}
