import { describe, expect, test } from 'vitest';
import {
  cholesky,
  eigen2,
  inverse,
  logDeterminant,
  multiply,
  transpose,
  type Matrix,
} from '../../../src/core/fix/matrix.js';
import { seededRandom } from 'cocked-hat';
import { pythonJson } from '../../support/python.js';

describe('small matrices agree with numpy', () => {
  const rng = seededRandom(3);
  const spd = (n: number): Matrix => {
    const a = Array.from({ length: n }, () => Array.from({ length: n }, () => rng.normal()));
    return multiply(a, transpose(a)).map((row, i) => row.map((v, j) => v + (i === j ? 0.1 : 0)));
  };
  const list = [1, 2, 3, 5, 8, 12].map(spd);
  const numpy = pythonJson<{ inv: Matrix[]; logdet: number[]; eig: number[][] }>(
    `import numpy as np
answer = {'inv': [np.linalg.inv(np.array(m)).tolist() for m in given],
          'logdet': [float(np.linalg.slogdet(np.array(m))[1]) for m in given],
          'eig': [np.linalg.eigvalsh(np.array(m))[::-1].tolist() for m in given]}`,
    list,
  );
  test('inverse and determinant', () => {
    list.forEach((m, k) => {
      const inv = inverse(m) as Matrix;
      const scale = Math.max(...inv.flat().map(Math.abs));
      inv.forEach((row, i) =>
        row.forEach((v, j) =>
          expect(Math.abs(v - ((numpy.inv[k] as Matrix)[i] as number[])[j]!)).toBeLessThan(
            1e-10 * scale,
          ),
        ),
      );
      expect(logDeterminant(cholesky(m) as Matrix)).toBeCloseTo(numpy.logdet[k] as number, 9);
    });
  });
  test('eigenvalues and direction of a 2 × 2 matrix', () => {
    const { major, minor, angleRad } = eigen2(list[1] as Matrix);
    expect(
      [major, minor].every((v, i) => Math.abs(v - (numpy.eig[1] as number[])[i]!) < 1e-12),
    ).toBe(true);
    const v = [Math.cos(angleRad), Math.sin(angleRad)];
    (list[1] as Matrix).forEach((row, i) =>
      expect(row[0]! * v[0]! + row[1]! * v[1]!).toBeCloseTo(major * v[i]!, 12),
    );
  });
});

test('a singular matrix has no factor, and that is said, not guessed', () => {
  expect(
    cholesky([
      [1, 1],
      [1, 1],
    ]),
  ).toBeNull();
  expect(
    inverse([
      [0, 0],
      [0, 1],
    ]),
  ).toBeNull();
});
