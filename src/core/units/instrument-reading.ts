import { Angle } from './angle.js';
import { formatAngle } from './angle-format.js';
import { EntryError } from './errors.js';

/** What the eye reads on a sextant with a micrometer drum. */
export interface DrumFigures {
  /** Whole degree on the main arc last passed, counted away from zero. */
  readonly arcDeg: number;
  /** Whole minutes at the drum's index, 0 to 59, as engraved (off the arc too). */
  readonly drumMinutes: number;
  /** Fraction of a minute on the drum's vernier, 0 or more and under 1; none if absent. */
  readonly vernierMinutes?: number;
  /** The index mark stands on the far side of zero. */
  readonly offTheArc?: boolean;
}

/** What the eye reads on a sextant with a vernier along the arc. */
export interface VernierFigures {
  /** The graduation last passed, counted away from zero: degrees and the minutes of the division, `34` and `40`. */
  readonly arcDeg: number;
  readonly arcMinutes?: number;
  /** Minutes and fraction at which a vernier line meets a line of the arc, as engraved (off the arc too). */
  readonly vernierMinutes: number;
  /** Minutes of arc between two graduations: 10, 15, 20 or 30. */
  readonly divisionMinutes: number;
  /** The index mark stands on the far side of zero. */
  readonly offTheArc?: boolean;
}

/**
 * The angle a micrometer-drum sextant shows: degrees of the arc, minutes of the drum, fraction of the vernier.
 * Off the arc the drum runs backward, so that what it shows is taken from 60′. On the arc +, off the arc −.
 * Source: common practice, no source.
 * @throws EntryError when a figure cannot stand on such an instrument
 */
export function drumReading(figures: DrumFigures): Angle {
  const { arcDeg, drumMinutes, vernierMinutes = 0, offTheArc = false } = figures;
  const said = `${arcDeg}° on the arc, ${drumMinutes}′ on the drum, ${vernierMinutes}′ on the vernier`;
  degreeOfArc(arcDeg, offTheArc, said);
  if (!Number.isInteger(drumMinutes) || drumMinutes < 0 || drumMinutes > 59)
    throw new EntryError('The drum shows whole minutes from 0 to 59. Write drumMinutes: 17.', said);
  if (!(vernierMinutes >= 0 && vernierMinutes < 1))
    throw new EntryError(
      'The drum’s vernier shows tenths of a minute under 1. Write vernierMinutes: 0.6.',
      said,
    );
  return signed(arcDeg, drumMinutes + vernierMinutes, 60, offTheArc);
}

/**
 * The angle a vernier sextant shows: the graduation last passed and the vernier's minutes. Off the arc the vernier is
 * read backward: what it shows is taken from one division. On the arc +, off the arc −. Source: common practice, no source.
 * @throws EntryError when a figure cannot stand on such an instrument
 */
export function vernierReading(figures: VernierFigures): Angle {
  const { arcDeg, arcMinutes = 0, vernierMinutes, divisionMinutes, offTheArc = false } = figures;
  const said = `${arcDeg}° ${arcMinutes}′ on the arc, ${vernierMinutes}′ on the vernier, divided to ${divisionMinutes}′`;
  degreeOfArc(arcDeg, offTheArc, said);
  if (!(divisionMinutes > 0 && 60 % divisionMinutes === 0))
    throw new EntryError(
      'A degree of the arc is divided evenly. Write divisionMinutes: 10 or 20.',
      said,
    );
  if (!(arcMinutes >= 0 && arcMinutes < 60 && arcMinutes % divisionMinutes === 0))
    throw new EntryError(
      `The arc is divided to ${divisionMinutes}′, so no line stands at ${arcMinutes}′.`,
      said,
    );
  if (!(vernierMinutes >= 0 && vernierMinutes <= divisionMinutes))
    throw new EntryError(`The vernier shows 0′ to ${divisionMinutes}′.`, said);
  return signed(arcDeg + arcMinutes / 60, vernierMinutes, divisionMinutes, offTheArc);
}

function signed(passedDeg: number, shown: number, span: number, off: boolean): Angle {
  if (!off) return withText(passedDeg + shown / 60);
  const beyond = shown === 0 ? 0 : span - shown;
  return withText(-(passedDeg + beyond / 60));
}

const withText = (degrees: number): Angle =>
  Angle.degrees(
    degrees,
    degrees < 0 ? `${formatAngle(-degrees)} off the arc` : formatAngle(degrees),
  );

/** An arc runs a few degrees to the far side of zero and to about 150° at most (common practice). */
function degreeOfArc(arcDeg: number, off: boolean, said: string): void {
  const most = off ? 10 : 150;
  if (!Number.isInteger(arcDeg) || arcDeg < 0 || arcDeg > most)
    throw new EntryError(
      `Whole degrees from 0 to ${most} stand ${off ? 'off' : 'on'} the arc. Write arcDeg: ${off ? 1 : 34}.`,
      said,
    );
}
