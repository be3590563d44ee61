import { reduce } from '../../core/line/index.js';
import * as sextant from '../../core/sextant/index.js';
import type { Sight } from '../../core/sextant/index.js';
import { formatIndexError, sight, type SightFields } from '../../core/sextant/index.js';
import {
  Angle,
  Duration,
  Length,
  Position,
  Pressure,
  Temperature,
} from '../../core/units/index.js';
import type { Working } from '../../core/working/index.js';
import { decode } from '../inputs/encode.js';
import { ephemerisFromPieces, withEphemeris } from '../inputs/ephemeris-pieces.js';
import type { EphemerisSource } from '../../core/sky/index.js';
import { withoutSteps, type Slip } from './left-out.js';
import { workingData, type WorkingData } from './working-data.js';
import type { WorkingInputs } from './working-inputs.js';

/** What a reader may move in a working; absent is as entered. */
export interface WorkingChanges {
  readonly eyeHeightM?: number;
  /** On the arc positive. */
  readonly indexErrorArcmin?: number;
  readonly temperatureC?: number;
  readonly pressureHpa?: number;
  readonly limb?: 'lower' | 'upper' | 'centre';
  /** Watch minus UTC, fast positive. */
  readonly watchErrorS?: number;
  readonly leftOut?: readonly string[];
}

export type MovableName = Exclude<keyof WorkingChanges, 'leftOut'>;

/** A figure that may be moved, and how it stands as entered. */
export interface Movable {
  readonly name: MovableName;
  readonly entered: number | string;
  readonly isAssumed: boolean;
}

type Procedure = (given: Sight, position?: Position) => Working<unknown>;

const PROCEDURES: Readonly<Record<string, Procedure>> = {
  observedAltitude: sextant.observedAltitude,
  indexCorrection: sextant.indexCorrection,
  instrumentCorrection: sextant.instrumentCorrection,
  dip: sextant.dip,
  refraction: sextant.refraction,
  semidiameter: sextant.semidiameter,
  augmentation: sextant.augmentation,
  parallax: sextant.parallax,
  earthFigure: sextant.earthFigure,
  phaseCorrection: sextant.phaseCorrection,
  reduce: (given, position) => reduce(given, position),
};

const MOVABLE: Readonly<Record<string, readonly MovableName[]>> = {
  indexCorrection: ['indexErrorArcmin'],
  dip: ['eyeHeightM'],
  refraction: ['temperatureC', 'pressureHpa'],
  semidiameter: ['limb'],
  augmentation: ['limb'],
  observedAltitude: ['eyeHeightM', 'indexErrorArcmin', 'temperatureC', 'pressureHpa', 'limb'],
  reduce: ['eyeHeightM', 'indexErrorArcmin', 'temperatureC', 'pressureHpa', 'limb', 'watchErrorS'],
};

/** A working that can be worked out again: the sight, the function, the places it needs. */
export class Rework {
  private constructor(
    private readonly procedure: Procedure,
    private readonly name: string,
    private readonly entered: Sight,
    private readonly position: Position | undefined,
    private readonly ephemeris: EphemerisSource | undefined,
  ) {}

  /** @throws EntryError, RangeError when the inputs are not those of a sight, or unknown. */
  static from(inputs: WorkingInputs): Rework {
    const procedure = Object.hasOwn(PROCEDURES, inputs.procedure)
      ? PROCEDURES[inputs.procedure]
      : undefined;
    if (!procedure) throw new RangeError(`no working is made by '${inputs.procedure}'`);
    const position = inputs.position === undefined ? undefined : decode(inputs.position);
    if (position !== undefined && !(position instanceof Position))
      throw new RangeError('the position of this working cannot be read');
    const entered = sight(decode(inputs.fields) as SightFields);
    const source = inputs.ephemeris && ephemerisFromPieces(inputs.ephemeris);
    return new Rework(procedure, inputs.procedure, entered, position, source);
  }

  /** Whether steps may be left out to see what forgetting them does. */
  get canForget(): boolean {
    return this.name === 'observedAltitude' || this.name === 'reduce';
  }

  /** The figures that can be moved in this working. */
  get movables(): Movable[] {
    const { entered: s } = this;
    const natural = s.horizon.kind === 'natural' || s.horizon.kind === 'short';
    const input = this.inSky(() => sextant.altitudeInputOf(s));
    const at: Record<MovableName, { entered: number | string; isAssumed: boolean } | null> = {
      eyeHeightM: natural ? { entered: input.eyeHeightM, isAssumed: !s.eyeHeight } : null,
      indexErrorArcmin: { entered: input.indexErrorArcmin, isAssumed: !s.indexError },
      temperatureC: { entered: input.temperatureC, isAssumed: !s.temperature },
      pressureHpa: { entered: input.pressureHpa, isAssumed: !s.pressure },
      limb:
        s.body === 'Sun' || s.body === 'Moon'
          ? { entered: s.limb, isAssumed: s.fields.limb === undefined }
          : null,
      // A place typed from a printed almanac stands for its own moment only.
      watchErrorS: s.place ? null : { entered: s.watch?.error.seconds ?? 0, isAssumed: !s.watch },
    };
    return (MOVABLE[this.name] ?? []).flatMap((name) => {
      const figure = at[name];
      return figure ? [{ name, ...figure }] : [];
    });
  }

  /**
   * The working with these changes.
   * @throws EntryError or OutOfRangeError when a figure is impossible
   */
  with(changes: WorkingChanges): { data: WorkingData; slip?: Slip } {
    return this.inSky(() => {
      const changed = this.changedSight(changes);
      const data = workingData(this.procedure(changed, this.position));
      const leftOut = this.canForget ? (changes.leftOut ?? []) : [];
      return withoutSteps(data, changed, leftOut) ?? { data };
    });
  }

  private inSky<T>(work: () => T): T {
    return withEphemeris(this.ephemeris, work);
  }

  private changedSight(c: WorkingChanges): Sight {
    const { fields } = this.entered;
    const changed: Record<string, unknown> = { ...fields };
    if (c.eyeHeightM !== undefined) changed['eyeHeight'] = Length.metres(c.eyeHeightM);
    if (c.indexErrorArcmin !== undefined) changed['indexError'] = indexErrorOf(c.indexErrorArcmin);
    if (c.temperatureC !== undefined) changed['temperature'] = Temperature.celsius(c.temperatureC);
    if (c.pressureHpa !== undefined) changed['pressure'] = Pressure.hectopascals(c.pressureHpa);
    if (c.limb !== undefined) changed['limb'] = c.limb;
    if (c.watchErrorS !== undefined)
      changed['watch'] = {
        sigma: Duration.seconds(0),
        ...fields.watch,
        error: Duration.seconds(c.watchErrorS),
      };
    return sight(changed as unknown as SightFields);
  }
}

const indexErrorOf = (arcmin: number): Angle =>
  Angle.degrees(arcmin / 60, formatIndexError(Angle.arcminutes(arcmin)));
