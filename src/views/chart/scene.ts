import type { Place } from './window.js';

/** A leg sailed, on a rhumb line. */
export interface Run {
  readonly courseDeg: number;
  readonly distanceM: number;
}

/** One position line as the chart draws it: a circle of equal altitude and the run that carries it forward. */
export interface ChartLine {
  readonly key: string;
  readonly body: string;
  /** `05:21`. */
  readonly time: string;
  readonly geographicalPosition: Place;
  /** Zenith distance, degrees. */
  readonly radiusDeg: number;
  /** From where the sight was taken to the time of the fix; empty when the line stays. */
  readonly run: readonly Run[];
  /** One standard deviation, minutes of arc. */
  readonly sigmaArcmin: number;
  /** Which hue and dash: lines of one body share them. */
  readonly style: number;
  readonly isOff: boolean;
  /** Foot of the intercept from the DR, as taken and as carried forward. */
  readonly foot?: { readonly taken: Place; readonly carried: Place };
}

/** All that a chart of a fix shows. Places in degrees, north and east positive. */
export interface ChartScene {
  readonly title: string;
  readonly lines: readonly ChartLine[];
  readonly fix?: {
    readonly place: Place;
    readonly label: string;
    /** The lines do not cross: a square and not a circle. */
    readonly isEstimate: boolean;
  };
  /** The region of that probability; a single line has a band, which is not bounded. */
  readonly region?: {
    readonly percent: number;
    readonly outline: readonly Place[];
    readonly isBounded: boolean;
    /** The ellipse, where the outline is the exact one. */
    readonly ellipse?: readonly Place[];
  };
  /** Corners of the cocked hat. */
  readonly hat?: readonly Place[];
  readonly dr?: { readonly place: Place; readonly label: string };
}

/** What of a scene is drawn. */
export interface ChartChoices {
  readonly bands: boolean;
  /** Where lines stood before they were carried forward. */
  readonly before: boolean;
  /** From the DR along each azimuth to the foot of the intercept, as one plots it by hand. */
  readonly intercepts: boolean;
  readonly hat: boolean;
  readonly coast: boolean;
}

export const DEFAULT_CHOICES: ChartChoices = {
  bands: false,
  before: true,
  intercepts: false,
  hat: true,
  coast: true,
};
