/** The part of jstat that is used here; the package carries no types. */
declare module 'jstat' {
  interface Distribution<P extends unknown[]> {
    cdf(x: number, ...parameters: P): number;
    inv(p: number, ...parameters: P): number;
  }
  const library: {
    readonly jStat: {
      readonly studentt: Distribution<[dof: number]>;
      readonly chisquare: Distribution<[dof: number]>;
      readonly normal: Distribution<[mean: number, sd: number]>;
      readonly beta: Distribution<[a: number, b: number]>;
    };
  };
  export default library;
}
