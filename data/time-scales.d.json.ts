declare const table: {
  readonly source: string;
  readonly deltaTSource: string;
  readonly leapSecondListExpires: string;
  readonly leapSeconds: readonly (readonly [mjd: number, taiMinusUtcS: number])[];
  readonly firstMjd: number;
  readonly stepDays: number;
  readonly lastObservedMjd: number;
  readonly taiMinusUt1Ms: readonly number[];
  readonly deltaTFirstYear: number;
  readonly deltaTS: readonly number[];
};
export default table;
