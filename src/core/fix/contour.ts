/** A point in grid units: column and row, fractions between the nodes. */
export type GridPoint = readonly [col: number, row: number];

/**
 * Closed rings around where `value` is at or above `level`, by marching squares with linear interpolation; the grid
 * is treated as surrounded by values below the level, so every ring closes.
 * @param value by column and row, 0 ≤ col < cols, 0 ≤ row < rows
 * Source: C. Maple, *Geometric design and space planning using the marching squares …*, GMAG 2003.
 */
export function contourRings(
  value: (col: number, row: number) => number,
  cols: number,
  rows: number,
  level: number,
): GridPoint[][] {
  const inside = (c: number, r: number) =>
    c >= 0 && r >= 0 && c < cols && r < rows && value(c, r) >= level;
  // Edges are named by the node they start from: 'h' to the next column, 'v' to the next row.
  const crossing = (kind: 'h' | 'v', c: number, r: number): GridPoint => {
    const [c2, r2] = kind === 'h' ? [c + 1, r] : [c, r + 1];
    const known = (x: number, y: number) => x >= 0 && y >= 0 && x < cols && y < rows;
    const fraction =
      known(c, r) && known(c2, r2)
        ? (level - value(c, r)) / (value(c2, r2) - value(c, r))
        : known(c, r)
          ? 0
          : 1;
    return kind === 'h' ? [c + fraction, r] : [c, r + fraction];
  };
  const next = new Map<string, string>();
  const points = new Map<string, GridPoint>();
  const join = (
    from: readonly ['h' | 'v', number, number],
    to: readonly ['h' | 'v', number, number],
  ) => {
    for (const edge of [from, to]) points.set(edge.join(), crossing(...edge));
    next.set(from.join(), to.join());
  };
  for (let r = -1; r < rows; r++)
    for (let c = -1; c < cols; c++) {
      const code =
        +inside(c, r) + 2 * +inside(c + 1, r) + 4 * +inside(c + 1, r + 1) + 8 * +inside(c, r + 1);
      const bottom = ['h', c, r] as const;
      const right = ['v', c + 1, r] as const;
      const top = ['h', c, r + 1] as const;
      const left = ['v', c, r] as const;
      // Inside always on the left hand of the direction of travel.
      if (code === 1) join(bottom, left);
      else if (code === 2) join(right, bottom);
      else if (code === 3) join(right, left);
      else if (code === 4) join(top, right);
      else if (code === 5) {
        join(bottom, left);
        join(top, right);
      } else if (code === 6) join(top, bottom);
      else if (code === 7) join(top, left);
      else if (code === 8) join(left, top);
      else if (code === 9) join(bottom, top);
      else if (code === 10) {
        join(right, bottom);
        join(left, top);
      } else if (code === 11) join(right, top);
      else if (code === 12) join(left, right);
      else if (code === 13) join(bottom, right);
      else if (code === 14) join(left, bottom);
    }
  const rings: GridPoint[][] = [];
  while (next.size > 0) {
    const [first] = next.keys();
    const ring: GridPoint[] = [];
    for (let edge = first; edge !== undefined && next.has(edge);) {
      ring.push(points.get(edge) as GridPoint);
      const following: string | undefined = next.get(edge);
      next.delete(edge);
      edge = following;
    }
    rings.push(ring);
  }
  return rings.sort((a, b) => Math.abs(area(b)) - Math.abs(area(a)));
}

/** Signed area in grid units, counter-clockwise (column to the right, row up) positive. */
export function area(ring: readonly GridPoint[]): number {
  return (
    ring.reduce((sum, [x, y], i) => {
      const [x2, y2] = ring[(i + 1) % ring.length] as GridPoint;
      return sum + x * y2 - x2 * y;
    }, 0) / 2
  );
}
