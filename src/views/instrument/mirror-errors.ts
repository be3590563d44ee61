/** The three errors of the mirrors that an observer can take out, in the order of adjustment (common practice, no source). */
export interface MirrorError {
  readonly key: 'perpendicularity' | 'side' | 'index';
  readonly name: string;
  readonly looks: string;
  readonly cure: string;
}

export const MIRROR_ERRORS: readonly MirrorError[] = [
  {
    key: 'perpendicularity',
    name: '1. Perpendicularity',
    looks:
      'Hold the sextant flat, arc away from you, index near the middle. Look into the index mirror past its edge: the arc seen direct and the arc in the mirror should run on as one. A step between them means that the index mirror leans.',
    cure: 'Turn the screw behind the index mirror until the arc runs on without a step. First of the three: it spoils both that follow.',
  },
  {
    key: 'side',
    name: '2. Side error',
    looks:
      'Index at zero, look at a star and turn the drum to and fro: the reflected star should pass through the direct one. If it passes to one side, the horizon glass leans. A horizon parts as the sextant is tilted.',
    cure: 'Turn the screw of the horizon glass that is farther from the frame until the star passes over itself.',
  },
  {
    key: 'index',
    name: '3. Index error',
    looks:
      'Index at zero, look at the horizon or a star: the two images should be one. Turn the drum until they are: what it then shows is the index error.',
    cure: 'If it is more than about 3′, turn the screw of the horizon glass nearer to the frame; then look at the side error again, as the one screw moves the other. A small index error is left and allowed for.',
  },
];

/** What the two images look like in an index check; displacements in minutes of arc, reflected less direct, upward +. */
export type CheckBy = 'horizon' | 'star' | 'Sun';

/**
 * How far the reflected image stands above the direct one: turning the drum up by a minute lowers it by a minute.
 * @param readingArcmin what the drum shows, off the arc negative; @param indexErrorArcmin on the arc +
 */
export const imageOffset = (readingArcmin: number, indexErrorArcmin: number): number =>
  indexErrorArcmin - readingArcmin;
