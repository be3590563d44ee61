/** A seeded source of random numbers: the same seed gives the same sequence on every machine. */
export interface Random {
  /** Uniform in 0 (included) to 1 (excluded). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Whole number in 0 (included) to `n` (excluded). */
  below(n: number): number;
}

/**
 * Small Fast Counter generator, 32-bit: C. Doty-Humphrey, PractRand (sfc32); seeded by splitmix32 steps so that
 * nearby seeds do not give related sequences. Normals by the polar method (G. Marsaglia, T. A. Bray, SIAM Review 6, 1964).
 * @param seed any whole number
 */
export function seededRandom(seed: number): Random {
  let state = seed | 0;
  const mix = () => {
    state = (state + 0x9e3779b9) | 0;
    let z = state ^ (state >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let [a, b, c, counter] = [mix(), mix(), mix(), 1];
  const next = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 12; i++) next();
  const uniform = () => ((next() >>> 5) * 67108864 + (next() >>> 6)) / 9007199254740992;
  let spare: number | undefined;
  const normal = () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const factor = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * factor;
        return u * factor;
      }
    }
  };
  return { uniform, normal, below: (n) => Math.floor(uniform() * n) };
}
