import { altitudeKernel } from '../../core/line/index.js';
import {
  augmentationKernel,
  phaseCorrectionKernel,
  sextantReadingFor,
  type AltitudeInput,
} from '../../core/sextant/index.js';
import {
  appearance,
  newPlaceNumbers,
  placeKernel,
  RADIUS_KM,
  type BodyName,
} from '../../core/sky/index.js';
import { Instant } from '../../core/units/index.js';
import { withEphemeris, ephemerisFromPieces } from '../inputs/ephemeris-pieces.js';
import type { BenchData } from './bench-data.js';
import { benchPhase, type BenchPhase } from './bench-phase.js';

/** The body as it stands at a moment: what a perfect observer would read for a limb, and where the disc is seen. */
export interface BenchBody {
  readonly azDeg: number;
  /** Apparent altitudes of the two limbs, refracted: their difference is less than the diameter low down. */
  readonly lowerDeg: number;
  readonly upperDeg: number;
  /** Half the width of the disc, minutes of arc; 0 for a star or a planet. */
  readonly halfWidthArcmin: number;
  readonly dipArcmin: number;
  /** The lit part of the Moon; null for all others. */
  readonly phase: BenchPhase | null;
  readonly sunAltDeg: number;
}

const RAD = Math.PI / 180;

/** The sky of one bench: places from the pieces of the ephemeris that the data carry. */
export class BenchSky {
  private readonly source;
  private readonly place = newPlaceNumbers();
  private readonly sun = newPlaceNumbers();
  constructor(private readonly data: BenchData) {
    this.source = data.ephemeris ? ephemerisFromPieces(data.ephemeris) : undefined;
  }

  private input(utcMs: number): { input: AltitudeInput; altDeg: number; azDeg: number } {
    const { data, place, sun } = this;
    const at = Instant.fromEpochMs(utcMs);
    withEphemeris(this.source, () => {
      placeKernel(data.body as BodyName, at.tt, at.ut1, place);
      placeKernel('Sun', at.tt, at.ut1, sun);
    });
    const { altDeg, azDeg } = altitudeKernel(data.latDeg, data.lonDeg, place.ghaDeg, place.decDeg);
    const hasDisc = data.body === 'Sun' || data.body === 'Moon';
    const input: AltitudeInput = {
      readingDeg: NaN,
      indexErrorArcmin: 0,
      instrumentArcmin: 0,
      horizon: data.horizon,
      eyeHeightM: data.eyeHeightM,
      distanceM: NaN,
      temperatureC: data.temperatureC,
      pressureHpa: data.pressureHpa,
      refractionModel: 'formula above 10°',
      limb: -1,
      sdArcmin: hasDisc ? place.sdArcmin : 0,
      hpArcmin: place.hpArcmin,
      moon: data.body === 'Moon',
      latDeg: data.latDeg,
      azimuthDeg: azDeg,
      phaseArcmin: this.planetPhase(altDeg),
    };
    return { input, altDeg, azDeg };
  }

  /** From the centre of light of Venus or Mars to that of the disc, as the log's corrections have it. */
  private planetPhase(altDeg: number): number {
    const { data, place, sun } = this;
    if (data.body !== 'Venus' && data.body !== 'Mars') return 0;
    const phase = benchPhase(data.latDeg, data.lonDeg, place, sun, altDeg);
    const sdArcmin = (Math.asin(RADIUS_KM[data.body] / place.distanceKm) / RAD) * 60;
    return phaseCorrectionKernel(sdArcmin, phase.phaseAngleDeg, phase.brightLimbDeg);
  }

  /** What a perfect observer reads for that limb with an index error. @returns degrees; NaN below the horizon */
  readingAt(utcMs: number, limb: -1 | 0 | 1, indexErrorArcmin: number): number {
    const { input, altDeg } = this.input(utcMs);
    return sextantReadingFor(altDeg, { ...input, limb, indexErrorArcmin });
  }

  /** Magnitude at the start of the session; very faint where no formula gives one. */
  magnitude(): number {
    const { tt } = Instant.fromEpochMs(this.data.fromMs);
    return withEphemeris(
      this.source,
      () => appearance(this.data.body as BodyName, tt).magnitude ?? 9,
    );
  }

  bodyAt(utcMs: number): BenchBody {
    const { data, place, sun } = this;
    const { input, altDeg, azDeg } = this.input(utcMs);
    const over = (limb: -1 | 0 | 1, horizon: 'natural' | 'bubble') =>
      sextantReadingFor(altDeg, { ...input, limb, horizon });
    const lowerDeg = over(-1, 'bubble');
    const upperDeg = over(1, 'bubble');
    const middleDeg = (lowerDeg + upperDeg) / 2;
    const augmentation = input.moon
      ? augmentationKernel(middleDeg, input.sdArcmin, input.hpArcmin)
      : 0;
    return {
      azDeg,
      lowerDeg,
      upperDeg,
      halfWidthArcmin: input.sdArcmin + augmentation,
      dipArcmin: 60 * (over(0, 'natural') - over(0, 'bubble')),
      phase: input.moon
        ? benchPhase(
            data.latDeg,
            data.lonDeg,
            place,
            sun,
            Number.isFinite(middleDeg) ? middleDeg : altDeg,
          )
        : null,
      sunAltDeg: altitudeKernel(data.latDeg, data.lonDeg, sun.ghaDeg, sun.decDeg).altDeg,
    };
  }
}
