/**
 * Published standards of assessment: how close a candidate's figure must come to the assessor's. From USCG
 * NVIC 12-14, tasks 1.1.A–F and 1.7.F (a stored copy of the tasks was read, not the printed circular).
 */
export interface AssessmentStandard {
  readonly size: number;
  readonly unit: '′' | 'nm' | '°' | 's';
  readonly source: string;
}

const nvic = (size: number, unit: AssessmentStandard['unit'], task: string): AssessmentStandard =>
  Object.freeze({ size, unit, source: `USCG NVIC 12-14, task ${task}` });

/** The standards, each with its size, unit and task. */
export const assessmentStandards = Object.freeze({
  /** Index error left after adjusting. */
  indexError: nvic(0.5, '′', '1.1.A'),
  /** Altitude of the Sun's lower limb. */
  sunAltitude: nvic(0.5, '′', '1.1.B'),
  /** Time of a sight. */
  sightTime: nvic(2, 's', '1.1.B'),
  /** Altitude of a star in twilight. */
  starAltitude: nvic(2, '′', '1.1.C'),
  /** Altitude at local apparent noon, and with it the latitude (1′ of altitude is 1′ of latitude). */
  noonAltitude: nvic(1, '′', '1.1.D'),
  /** Running fix of three Sun lines, star fix. */
  fix: nvic(2, 'nm', '1.1.E and 1.1.F'),
  /** Error of the compass by an azimuth. */
  compassError: nvic(1, '°', '1.7.F'),
});

/** The names of the published standards. */
export type StandardName = keyof typeof assessmentStandards;
