import { altitudeKernel } from '../../core/line/index.js';
import { sextantReadingFor, type AltitudeInput } from '../../core/sextant/index.js';
import { newPlaceNumbers, placeKernel, type BodyName } from '../../core/sky/index.js';
import { Instant } from '../../core/units/index.js';
import { withEphemeris, ephemerisFromPieces } from '../inputs/ephemeris-pieces.js';
import type { BenchData } from './bench-data.js';

/** The body as it stands at a moment: what a perfect observer would read for a limb, and where the disc is seen. */
export interface BenchBody {
  readonly azDeg: number;
  /** Apparent altitudes of the two limbs, refracted: their difference is less than the diameter low down. */
  readonly lowerDeg: number;
  readonly upperDeg: number;
  /** Half the width of the disc, minutes of arc; 0 for a star. */
  readonly halfWidthArcmin: number;
  readonly dipArcmin: number;
}

const place = newPlaceNumbers();

/** The sky of one bench: places from the pieces of the ephemeris that the data carry. */
export class BenchSky {
  private readonly source;
  constructor(private readonly data: BenchData) {
    this.source = data.ephemeris ? ephemerisFromPieces(data.ephemeris) : undefined;
  }

  private input(utcMs: number): { input: AltitudeInput; altDeg: number; azDeg: number } {
    const { data } = this;
    const at = Instant.fromEpochMs(utcMs);
    withEphemeris(this.source, () => placeKernel(data.body as BodyName, at.tt, at.ut1, place));
    const { altDeg, azDeg } = altitudeKernel(data.latDeg, data.lonDeg, place.ghaDeg, place.decDeg);
    const input: AltitudeInput = {
      readingDeg: NaN,
      indexErrorArcmin: 0,
      instrumentArcmin: 0,
      horizon: 'natural',
      eyeHeightM: data.eyeHeightM,
      distanceM: NaN,
      temperatureC: data.temperatureC,
      pressureHpa: data.pressureHpa,
      refractionModel: 'formula above 10°',
      limb: -1,
      sdArcmin: data.body === 'Sun' ? place.sdArcmin : 0,
      hpArcmin: place.hpArcmin,
      moon: false,
      latDeg: data.latDeg,
      azimuthDeg: azDeg,
      phaseArcmin: 0,
    };
    return { input, altDeg, azDeg };
  }

  /** What a perfect observer reads for that limb with an index error. @returns degrees; NaN below the horizon */
  readingAt(utcMs: number, limb: -1 | 0 | 1, indexErrorArcmin: number): number {
    const { input, altDeg } = this.input(utcMs);
    return sextantReadingFor(altDeg, { ...input, limb, indexErrorArcmin });
  }

  bodyAt(utcMs: number): BenchBody {
    const { input, altDeg, azDeg } = this.input(utcMs);
    const dipArcmin =
      60 *
      (sextantReadingFor(altDeg, { ...input, limb: 0 }) -
        sextantReadingFor(altDeg, { ...input, limb: 0, horizon: 'bubble' }));
    const above = (limb: -1 | 1) =>
      sextantReadingFor(altDeg, { ...input, limb, horizon: 'bubble' });
    return {
      azDeg,
      lowerDeg: above(-1),
      upperDeg: above(1),
      halfWidthArcmin: input.sdArcmin,
      dipArcmin,
    };
  }
}
