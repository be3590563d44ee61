import { horizontalKernel } from '../../core/sextant/index.js';
import type { PlaceNumbers } from '../../core/sky/index.js';

const RAD = Math.PI / 180;

/** The lit part of a disc, as it stands above the observer. */
export interface BenchPhase {
  /** Angle Sun–body–Earth, 0° full to 180° new. */
  readonly phaseAngleDeg: number;
  /** Where the middle of the bright limb lies: from the upright of the observer, to the right +. */
  readonly brightLimbDeg: number;
}

/**
 * Phase and bright limb by the directions and distances of body and Sun.
 * @param altDeg altitude at which the body is seen (the Moon stands up to a degree lower than from the Earth's centre)
 */
export function benchPhase(
  latDeg: number,
  lonDeg: number,
  body: PlaceNumbers,
  sun: PlaceNumbers,
  altDeg: number,
): BenchPhase {
  const [p, s] = [body, sun].map((d) => horizontalKernel(latDeg, lonDeg, d.ghaDeg, d.decDeg)) as [
    ReturnType<typeof horizontalKernel>,
    ReturnType<typeof horizontalKernel>,
  ];
  const elongation = Math.acos(
    Math.min(
      1,
      Math.max(
        -1,
        Math.sin(body.decDeg * RAD) * Math.sin(sun.decDeg * RAD) +
          Math.cos(body.decDeg * RAD) *
            Math.cos(sun.decDeg * RAD) *
            Math.cos((body.ghaDeg - sun.ghaDeg) * RAD),
      ),
    ),
  );
  const phaseAngle = Math.atan2(
    sun.distanceKm * Math.sin(elongation),
    body.distanceKm - sun.distanceKm * Math.cos(elongation),
  );
  const turn = (s.azimuthDeg - p.azimuthDeg) * RAD;
  const [h, hs] = [altDeg * RAD, s.altDeg * RAD];
  const up = Math.cos(h) * Math.sin(hs) - Math.sin(h) * Math.cos(hs) * Math.cos(turn);
  return {
    phaseAngleDeg: phaseAngle / RAD,
    brightLimbDeg: Math.atan2(Math.cos(hs) * Math.sin(turn), up) / RAD,
  };
}

/** Share of the disc that is lit. */
export const litFraction = ({ phaseAngleDeg }: BenchPhase): number =>
  (1 + Math.cos(phaseAngleDeg * RAD)) / 2;

/** The limb that is lit: the one a navigator takes. */
export const litLimb = ({ brightLimbDeg }: BenchPhase): 'lower' | 'upper' =>
  Math.abs(brightLimbDeg) < 90 ? 'upper' : 'lower';
