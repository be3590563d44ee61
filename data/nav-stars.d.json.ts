/** One star: ICRS place at J1991.25 in degrees; motions in mas a year (RA times cos dec); parallax in mas. */
export interface CatalogueStar {
  readonly number: number | null;
  readonly name: string;
  readonly bayer: string;
  readonly hip: number;
  readonly raDeg: number;
  readonly decDeg: number;
  readonly vMag: number;
  readonly pmRaCosDecMasPerYr: number;
  readonly pmDecMasPerYr: number;
  readonly parallaxMas: number;
  readonly radialVelocityKmS: number;
}
/** A visual binary: the orbit of B about A, and where the fields differ from the row, its barycentre. */
export interface CatalogueBinary {
  readonly hip: number;
  readonly centre: string;
  readonly raDeg?: number;
  readonly decDeg?: number;
  readonly pmRaCosDecMasPerYr?: number;
  readonly pmDecMasPerYr?: number;
  readonly parallaxMas?: number;
  readonly radialVelocityKmS?: number;
  readonly lightFractionB: number;
  readonly orbitOfBAboutA: {
    readonly periodYr: number;
    readonly periastronYr: number;
    readonly aArcsec: number;
    readonly e: number;
    readonly iDeg: number;
    readonly nodeDeg: number;
    readonly argPeriDeg: number;
    readonly massFractionB: number;
  };
  readonly source: string;
}
declare const catalogue: {
  readonly epochJdTT: number;
  readonly credit: string;
  readonly stars: readonly CatalogueStar[];
  readonly binaries: readonly CatalogueBinary[];
};
export default catalogue;
