import { label, type AltitudeObservation } from '../line/observation.js';
import { formatCorrection, formatSigned } from '../units/angle-format.js';
import type { Angle } from '../units/angle.js';

/** How one sight fits the fix. */
export class Residual {
  constructor(
    readonly observation: AltitudeObservation,
    /** Observed less computed altitude at the fix, a common bias taken off; toward the body positive. */
    readonly residual: Angle,
    /** One standard deviation of the altitude by its budget, shared causes included. */
    readonly sigma: Angle,
    /** Residual in units of its own standard deviation given the others; null where nothing checks this sight. */
    readonly standardised: number | null,
    /** Share of this altitude in its own computed value, 0 (checked by the others) to 1 (not checked at all). */
    readonly leverage: number,
  ) {
    Object.freeze(this);
  }
  /** `Sun 09:42:17`. */
  get label(): string {
    return label(this.observation);
  }
  /** Over three standard deviations: one sight in 370 by chance. */
  get suspect(): boolean {
    return Math.abs(this.standardised ?? 0) > 3;
  }
  /** `Sun 09:42:17 +0.6′ (+0.8 σ)`, both toward the body positive. */
  toString(): string {
    const w = this.standardised === null ? 'unchecked' : `${formatSigned(this.standardised)} σ`;
    return `${this.label} ${formatCorrection(this.residual.arcminutes)} (${w})`;
  }
  /** Plain data: residual and its sigma in minutes of arc, standardised residual, leverage. */
  toJSON(): unknown {
    return {
      label: this.label,
      residualArcmin: this.residual.arcminutes,
      sigmaArcmin: this.sigma.arcminutes,
      standardised: this.standardised,
      leverage: this.leverage,
    };
  }
}
