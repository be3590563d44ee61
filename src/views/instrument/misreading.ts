import { formatAngle } from '../../core/units/index.js';
import { drumPose, eyeFigures } from './drum-pose.js';

export type MisreadingKind =
  | 'right'
  | 'whole degree'
  | 'drum the wrong way'
  | 'on and off the arc'
  | 'figure of the drum'
  | 'minute line'
  | 'vernier line'
  | 'other';

export interface Judgement {
  readonly kind: MisreadingKind;
  /** What went wrong and how to read it, in a sentence or two. */
  readonly words: string;
}

/** Between two vernier lines either may be taken: the answer is right within one of them. */
const LINE_TENTHS = 1;

/**
 * Names the misreading that leads from what the instrument shows to what was read. The drum's habits are common
 * practice, no source.
 * @param shownDeg what the instrument shows; @param readDeg what was read; degrees, off the arc negative
 */
export function judgeReading(shownDeg: number, readDeg: number): Judgement {
  const pose = drumPose(shownDeg);
  const shown = Math.round(shownDeg * 600);
  const read = Math.round(readDeg * 600);
  const miss = read - shown;
  const near = (tenths: number) => Math.abs(miss - tenths) <= LINE_TENTHS;
  const right = readingText(shownDeg);
  const told = (kind: MisreadingKind, words: string): Judgement => ({ kind, words });
  if (near(0)) return told('right', `Right: ${right}.`);
  if (shown !== 0 && Math.abs(read + shown) <= LINE_TENTHS)
    return told(
      'on and off the arc',
      `The figure is right but the side is not: the index stands ${shown < 0 ? 'off' : 'on'} the arc, ${shown < 0 ? 'before' : 'past'} the zero.`,
    );
  const { arcDeg, offTheArc } = eyeFigures(pose);
  const side = offTheArc ? -1 : 1;
  const drumTenths = Math.round(pose.drumMinutes * 10);
  const otherSide = offTheArc ? arcDeg * 600 + drumTenths : drumTenths - (arcDeg + 1) * 600;
  if (drumTenths !== 0 && Math.abs(read - otherSide) <= LINE_TENTHS)
    return told('on and off the arc', otherSideWords(offTheArc, drumTenths / 10));
  if (near(600) || near(-600)) return told('whole degree', degreeWords(pose.drumMinutes, miss));
  const shownMinutes = Math.abs(shown) % 600;
  const mirrored = side * (arcDeg * 600 + 600 - shownMinutes);
  if (shownMinutes !== 0 && Math.abs(read - mirrored) <= LINE_TENTHS)
    return told(
      'drum the wrong way',
      offTheArc
        ? `Off the arc the drum counts down: it shows ${(drumTenths / 10).toFixed(1)}′, and what is off is 60′ less that, ${(60 - drumTenths / 10).toFixed(1)}′.`
        : `The drum was read the wrong way: its figures grow as the angle opens, so take ${(drumTenths / 10).toFixed(1)}′ as engraved.`,
    );
  if (near(50) || near(-50) || near(100) || near(-100))
    return told(
      'figure of the drum',
      `${Math.abs(Math.round(miss / 10))}′ ${miss > 0 ? 'too much' : 'too little'}: the lines were counted from the wrong figure of the drum. Reading: ${right}.`,
    );
  if (near(10) || near(-10))
    return told(
      'minute line',
      `One minute ${miss > 0 ? 'too much' : 'too little'}: take the line of the drum that the zero of the vernier has last passed, ${eyeFigures(pose).drumMinutes}′, not the nearest.`,
    );
  if (Math.abs(miss) < 10)
    return told(
      'vernier line',
      `Degrees and minutes are right; of the vernier it is line ${pose.vernierLine} that runs into a line of the drum${wrongEnd(pose.vernierLine, read)}.`,
    );
  return told(
    'other',
    `${formatAngle(Math.abs(miss) / 600)} ${miss > 0 ? 'too much' : 'too little'}. Degrees first, at the arc's index: ${arcDeg}°; then the drum; then the vernier. Reading: ${right}.`,
  );
}

const otherSideWords = (offTheArc: boolean, drum: number) =>
  offTheArc
    ? `Read as on the arc, but the index stands off it, before the zero: the drum shows ${drum.toFixed(1)}′ and what is off is 60′ less that, ${(60 - drum).toFixed(1)}′.`
    : `Read as off the arc, but the index stands on it, past the zero: take the drum’s ${drum.toFixed(1)}′ as engraved, not 60′ less that.`;

const wrongEnd = (line: number, read: number) =>
  line !== 0 && Math.abs(read) % 10 === 10 - line ? '; it is counted from its zero upward' : '';

function degreeWords(drumMinutes: number, missTenths: number): string {
  const which = missTenths > 0 ? 'too much' : 'too little';
  if (drumMinutes >= 50)
    return `A whole degree ${which}, at the turn of the drum: with the drum at ${drumMinutes.toFixed(1)}′ the arc's index stands just short of the next line, which is not yet reached.`;
  if (drumMinutes <= 10)
    return `A whole degree ${which}, at the turn of the drum: with the drum at ${drumMinutes.toFixed(1)}′ the arc's index stands just past a line, and that line counts.`;
  return `A whole degree ${which}: take the line of the arc that the index has last passed.`;
}

/** `34°17.6′`, `0°01.4′ off the arc`. */
export const readingText = (degrees: number): string =>
  Math.round(degrees * 600) < 0 ? `${formatAngle(-degrees)} off the arc` : formatAngle(degrees);
