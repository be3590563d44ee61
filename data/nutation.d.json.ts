declare const nutation: {
  readonly source: string;
  /** Multiples of l, l′, F, D, Ω; longitude sin, t sin, cos; obliquity cos, t cos, sin; 0.1 µas. */
  readonly terms: readonly (readonly number[])[];
};
export default nutation;
