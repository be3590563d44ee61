import { fix, type Fix, type FixLine, type FixOptions, type Region } from '../../core/fix/index.js';
import { runBetween, trackOf } from '../../core/fix/run.js';
import { fixSettings, type FixSettings } from '../../core/fix/fix-options.js';
import { Angle, Instant, Position, Speed } from '../../core/units/index.js';
import {
  decodeFixOptions,
  decodeObservation,
  type ChartObservation,
  type FixInputs,
} from './chart-inputs.js';
import { fixLabel, hoursAndMinutes } from './chart-text.js';
import { carried } from './line-geometry.js';
import type { ChartLine, ChartScene, Run } from './scene.js';
import type { Place } from './window.js';

/** What a reader may change on a chart; absent is as the fix was asked for. */
export interface ChartChanges {
  /** Keys of the sights that are switched off. */
  readonly off?: readonly string[];
  readonly dr?: Place;
  readonly courseDeg?: number;
  readonly speedKn?: number;
  /** One standard deviation for every altitude, minutes of arc. */
  readonly sigmaArcmin?: number;
  readonly commonBias?: boolean;
  readonly estimateSigma?: boolean;
  readonly level?: number;
}

/** A chart worked out: the fix, or why there is none, and what to draw. */
export interface ChartFigures {
  readonly fix: Fix | undefined;
  readonly problem: string | undefined;
  readonly scene: ChartScene;
  /** Key of the sight of each residual and line of the fix. */
  readonly keys: readonly string[];
}

/** With more lines their outermost crossings tell nothing. */
const MOST_FOR_A_HAT = 5;

/** Foot of an intercept, at the sight and at the fix. */
function footOf(line: FixLine | undefined, run: readonly Run[]): Pick<ChartLine, 'foot'> {
  if (!line) return {};
  const { latDeg, lonDeg } = line.line.foot;
  const taken = { latDeg, lonDeg };
  const moved = carried(taken, run);
  return moved ? { foot: { taken, carried: moved } } : {};
}

/** Where the fix is marked, and as what. */
function fixMark(found: Fix): NonNullable<ChartScene['fix']> {
  const isEstimate = found.kind !== 'fix';
  const time = `${hoursAndMinutes(found.instant)} UTC`;
  return { place: found.position, label: isEstimate ? `EP ${time}` : time, isEstimate };
}

/** The fix of a chart, to be worked out again as the reader changes what it rests on. */
export class ChartModel {
  readonly observations: readonly {
    readonly key: string;
    readonly observation: ChartObservation;
  }[];
  private readonly styles: ReadonlyMap<string, number>;

  private constructor(
    observations: readonly ChartObservation[],
    private readonly options: FixOptions,
    readonly at: Instant,
  ) {
    const seen = new Map<string, number>();
    this.observations = observations.map((observation) => {
      const name = `${observation.body} ${observation.instant.toString()}`;
      const count = seen.get(name) ?? 0;
      seen.set(name, count + 1);
      return { key: count ? `${name} (${count + 1})` : name, observation };
    });
    const bodies = [...new Set(observations.map((o) => o.body))];
    this.styles = new Map(bodies.map((body, i) => [body, i]));
  }

  /** @throws RangeError, ViewDataError, EntryError when the data are not those of a fix */
  static from(inputs: FixInputs): ChartModel {
    const observations = inputs.observations.map(decodeObservation);
    const options = decodeFixOptions(inputs.options);
    const { at } = options;
    if (!(at instanceof Instant)) throw new RangeError('the time of this fix cannot be read');
    return new ChartModel(observations, options, at);
  }

  /** Course, speed, sigma and level as the fix was asked for; undefined where each sight has its own. */
  get entered(): {
    readonly courseDeg: number | undefined;
    readonly speedKn: number | undefined;
    readonly sigmaArcmin: number | undefined;
    readonly level: number;
    readonly commonBias: boolean;
    readonly estimateSigma: boolean;
  } {
    const settings = fixSettings(this.options);
    const leg = settings.track?.[0];
    const own = this.observations.find(({ observation: o }) => o.course && o.speed)?.observation;
    return {
      courseDeg: leg?.courseDeg ?? own?.course?.degrees,
      speedKn: leg?.speedKn ?? own?.speed?.knots,
      sigmaArcmin: settings.sigmaArcmin,
      level: settings.level,
      commonBias: settings.commonBias,
      estimateSigma: settings.estimateSigma,
    };
  }

  /** @param exact also the cocked hat and, where circles bend, the exact region: some milliseconds more */
  with(changes: ChartChanges, exact = true): ChartFigures {
    const options = this.optionsFor(changes);
    const off = new Set(changes.off ?? []);
    const kept = this.observations.filter(({ key }) => !off.has(key));
    let found: Fix | undefined;
    let problem: string | undefined;
    try {
      found = fix(
        kept.map(({ observation }) => observation),
        exact ? options : { ...options, method: 'ellipse' },
      );
    } catch (error) {
      problem = error instanceof Error ? error.message : String(error);
    }
    return {
      fix: found,
      problem,
      keys: this.keysOf(found, kept),
      scene: this.scene(found, fixSettings(options), off, exact, changes.dr),
    };
  }

  /** The fix leaves out sights that are there twice, so its lines are matched by observation. */
  private keysOf(found: Fix | undefined, kept: ChartModel['observations']): string[] {
    const keys = new Map(kept.map(({ key, observation }) => [observation as object, key]));
    return (found?.lines ?? []).map((line) => keys.get(line.observation) ?? line.label);
  }

  private optionsFor(c: ChartChanges): FixOptions {
    const changed: Record<string, unknown> = { ...this.options };
    if (c.dr) changed['dr'] = Position.degrees(c.dr.latDeg, c.dr.lonDeg);
    const { courseDeg, speedKn } = this.entered;
    if (c.courseDeg !== undefined || c.speedKn !== undefined) {
      delete changed['track'];
      changed['course'] = Angle.degrees(c.courseDeg ?? courseDeg ?? 0);
      changed['speed'] = Speed.knots(c.speedKn ?? speedKn ?? 0);
    }
    if (c.sigmaArcmin !== undefined) changed['sigma'] = Angle.arcminutes(c.sigmaArcmin);
    if (c.commonBias !== undefined) changed['commonBias'] = c.commonBias;
    if (c.estimateSigma !== undefined) changed['estimateSigma'] = c.estimateSigma;
    if (c.level !== undefined) changed['level'] = c.level;
    return changed as FixOptions;
  }

  private scene(
    found: Fix | undefined,
    settings: FixSettings,
    off: ReadonlySet<string>,
    exact: boolean,
    movedDr: Place | undefined,
  ): ChartScene {
    const dr = movedDr ?? found?.dr ?? settings.dr;
    const isHat = exact && found && found.lines.length <= MOST_FOR_A_HAT;
    const hat = isHat ? found.cockedHat() : undefined;
    const region = found?.region();
    return {
      title: found ? fixLabel(found) : '',
      lines: this.lines(settings, off, found),
      ...(found ? { fix: fixMark(found) } : {}),
      ...(region
        ? {
            region: {
              percent: Number((region.level * 100).toFixed(1)),
              outline: region.polygon,
              isBounded: region.bounded,
              ...this.ellipse(found, region),
            },
          }
        : {}),
      ...(hat ? { hat } : {}),
      ...(dr ? { dr: { place: dr, label: 'DR' } } : {}),
    };
  }

  /** The ellipse beside an exact outline. */
  private ellipse(
    found: Fix | undefined,
    { method, level }: Region,
  ): { ellipse?: readonly Place[] } {
    if (!found || method !== 'exact density on a grid') return {};
    const observations = found.lines.map((line) => line.observation);
    const rough = fix(observations, { ...this.options, level, method: 'ellipse' }).region();
    return rough.bounded ? { ellipse: rough.polygon } : {};
  }

  private lines(
    settings: FixSettings,
    off: ReadonlySet<string>,
    found: Fix | undefined,
  ): ChartLine[] {
    const feet = new Map(found?.dr ? found.lines.map((l) => [l.observation as object, l]) : []);
    const track = trackOf(
      this.observations.map(({ observation }) => observation),
      settings,
    );
    return this.observations.map(({ key, observation: o }) => {
      const { legs } = runBetween(track, settings, this.at, o.instant);
      const run: Run[] = [...legs]
        .reverse()
        .map(({ courseDeg, distanceM }) => ({ courseDeg, distanceM: -distanceM }));
      const variance = o.causes.reduce((sum, c) => sum + c.sigmaArcmin ** 2, 0);
      return {
        key,
        body: o.body,
        time: hoursAndMinutes(o.instant),
        geographicalPosition: { latDeg: o.declination.degrees, lonDeg: -o.gha.degrees },
        radiusDeg: 90 - o.observed.degrees,
        run,
        sigmaArcmin: settings.sigmaArcmin ?? Math.sqrt(variance),
        style: this.styles.get(o.body) ?? 0,
        isOff: off.has(key),
        ...footOf(feet.get(o), run),
      };
    });
  }
}
