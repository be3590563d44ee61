/** Rows of numbers; symmetric where named so. For the few rows of a round, plain arrays are the quickest. */
export type Matrix = number[][];

export const zeros = (rows: number, cols = rows): Matrix =>
  Array.from({ length: rows }, () => new Array<number>(cols).fill(0));

/** The entry, 0 outside: keeps index arithmetic honest under strict types. */
export const at = (m: Matrix, i: number, j: number): number => m[i]?.[j] ?? 0;

/**
 * Lower triangle L with A = L Lᵀ, or null where A is not positive definite.
 * Source: G. H. Golub and C. F. Van Loan, *Matrix Computations*, 4th ed. (2013), algorithm 4.2.1.
 */
export function cholesky(a: Matrix): Matrix | null {
  const n = a.length;
  const l = zeros(n);
  for (let j = 0; j < n; j++) {
    const rowJ = l[j] as number[];
    for (let i = j; i < n; i++) {
      const rowI = l[i] as number[];
      let sum = at(a, i, j);
      for (let k = 0; k < j; k++) sum -= (rowI[k] as number) * (rowJ[k] as number);
      if (i === j) {
        // A pivot this far below the diagonal is rounding: the matrix is singular to working precision.
        if (!(sum > 1e-13 * Math.abs(at(a, i, i)))) return null;
        rowJ[j] = Math.sqrt(sum);
      } else rowI[j] = sum / (rowJ[j] as number);
    }
  }
  return l;
}

/** Solves L Lᵀ x = b. */
export function choleskySolve(l: Matrix, b: readonly number[]): number[] {
  const n = l.length;
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    let sum = x[i] as number;
    for (let k = 0; k < i; k++) sum -= at(l, i, k) * (x[k] as number);
    x[i] = sum / at(l, i, i);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i] as number;
    for (let k = i + 1; k < n; k++) sum -= at(l, k, i) * (x[k] as number);
    x[i] = sum / at(l, i, i);
  }
  return x;
}

/** Inverse of a symmetric positive definite matrix, or null where it is singular. */
export function inverse(a: Matrix): Matrix | null {
  const l = cholesky(a);
  if (!l) return null;
  const n = a.length;
  const columns = a.map((_, j) =>
    choleskySolve(
      l,
      Array.from({ length: n }, (_, i) => +(i === j)),
    ),
  );
  return columns.map((_, i) => columns.map((c) => c[i] as number));
}

/** log of the determinant from its Cholesky factor. */
export function logDeterminant(l: Matrix): number {
  return 2 * l.reduce((sum, row, i) => sum + Math.log(row[i] as number), 0);
}

export function multiply(a: Matrix, b: Matrix): Matrix {
  const cols = b[0]?.length ?? 0;
  return a.map((row) =>
    Array.from({ length: cols }, (_, j) => row.reduce((sum, v, k) => sum + v * at(b, k, j), 0)),
  );
}

export const transpose = (a: Matrix): Matrix =>
  Array.from({ length: a[0]?.length ?? 0 }, (_, j) => a.map((row) => row[j] as number));

export const times = (a: Matrix, x: readonly number[]): number[] =>
  a.map((row) => row.reduce((sum, v, k) => sum + v * (x[k] as number), 0));

export const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);

/** Eigenvalues (largest first) of a symmetric 2 × 2 matrix, and the direction of the larger, radians from axis 0. */
export function eigen2(m: Matrix): { major: number; minor: number; angleRad: number } {
  const [a, b, c] = [at(m, 0, 0), at(m, 0, 1), at(m, 1, 1)];
  const mean = (a + c) / 2;
  const half = Math.hypot((a - c) / 2, b);
  return { major: mean + half, minor: mean - half, angleRad: 0.5 * Math.atan2(2 * b, a - c) };
}
