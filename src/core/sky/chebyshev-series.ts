import { recordBytes, type EphemerisSource, type SeriesHeader } from './ephemeris-format.js';

/** The series of one body: reads a granule the first time it is needed and keeps it decoded. */
export class ChebyshevSeries {
  readonly firstJd: number;
  readonly lastJd: number;
  readonly #granules: (Float64Array | undefined)[];
  readonly #record: number;
  readonly #terms: number;
  readonly #days: number;
  readonly #components: number;
  #x = 0;

  constructor(
    private readonly source: EphemerisSource,
    private readonly header: SeriesHeader,
    private readonly dataOffset: number,
  ) {
    this.firstJd = header.firstJd;
    this.lastJd = header.firstJd + header.granules * header.granuleDays;
    this.#granules = new Array<Float64Array | undefined>(header.granules);
    this.#record = recordBytes(header);
    this.#terms = header.widths.length;
    this.#days = header.granuleDays;
    this.#components = header.components;
  }

  /** Value of each component at `jd` into `out`. Sums after Clenshaw (1955, Math. Tables Aids Comput. 9, 118). */
  value(jd: number, out: Float64Array): void {
    const c = this.#seek(jd);
    const x = this.#x;
    const x2 = 2 * x;
    const n = this.#terms;
    for (let d = 0, o = 0; d < this.#components; d++, o += n) {
      let b1 = 0;
      let b2 = 0;
      for (let k = n - 1; k > 0; k--) {
        const b0 = x2 * b1 - b2 + (c[o + k] as number);
        b2 = b1;
        b1 = b0;
      }
      out[d] = x * b1 - b2 + (c[o] as number);
    }
  }

  /** Value and rate a day of each component. */
  valueAndRate(jd: number, out: Float64Array, rate: Float64Array): void {
    const c = this.#seek(jd);
    const x = this.#x;
    const x2 = 2 * x;
    const n = this.#terms;
    const scale = 2 / this.#days;
    for (let d = 0, o = 0; d < this.#components; d++, o += n) {
      let [b1, b2, e1, e2] = [0, 0, 0, 0];
      for (let k = n - 1; k > 0; k--) {
        const e0 = x2 * e1 - e2 + 2 * b1;
        e2 = e1;
        e1 = e0;
        const b0 = x2 * b1 - b2 + (c[o + k] as number);
        b2 = b1;
        b1 = b0;
      }
      out[d] = x * b1 - b2 + (c[o] as number);
      rate[d] = (b1 + x * e1 - e2) * scale;
    }
  }

  /** Coefficients of the granule that holds `jd`, and where in it, −1 to 1, into `#x`. */
  #seek(jd: number): Float64Array {
    const at = (jd - this.firstJd) / this.#days;
    const granule = Math.floor(at);
    this.#x = 2 * (at - granule) - 1;
    return this.#granules[granule] ?? this.#load(granule);
  }

  #load(granule: number): Float64Array {
    if (!(granule >= 0 && granule < this.header.granules))
      throw new RangeError(`no granule ${granule} of ${this.header.name} in ${this.source.name}`);
    const start = this.dataOffset + this.header.offset + granule * this.#record;
    const bytes = this.source.read(start, this.#record);
    if (bytes.length < this.#record) throw new RangeError(`${this.source.name} is cut short`);
    const values = decode(bytes, this.header);
    this.#granules[granule] = values;
    return values;
  }
}

function decode(bytes: Uint8Array, header: SeriesHeader): Float64Array {
  const terms = header.widths.length;
  const out = new Float64Array(header.components * terms);
  let at = 0;
  for (let d = 0; d < header.components; d++)
    for (let k = 0; k < terms; k++) {
      const width = header.widths[k] as number;
      let value = 0;
      for (let b = width - 1; b >= 0; b--) value = value * 256 + (bytes[at + b] as number);
      if ((bytes[at + width - 1] as number) & 128) value -= 256 ** width;
      out[d * terms + k] = value * header.quantum;
      at += width;
    }
  return out;
}
