export * from './sight.js';
export * from './sight-fields.js';
export * from './make-sight.js';
export * from './altitude-kernel.js';
export * from './certificate.js';
export * from './dip-kernel.js';
export * from './error-budget.js';
export * from './horizontal.js';
export * from './index-error-text.js';
export * from './parallax-kernel.js';
export * from './phase-kernel.js';
export * from './refraction-integral.js';
export * from './refraction-kernel.js';
export * from './run-of-readings.js';
export * from './watch.js';
export { indexCorrection } from './index-correction.js';
export { instrumentCorrection } from './instrument-correction.js';
export { dip } from './dip.js';
export { refraction } from './refraction.js';
export { semidiameter, augmentation } from './semidiameter.js';
export { parallax } from './parallax.js';
export { earthFigure } from './earth-figure.js';
export { phaseCorrection } from './phase.js';
export { observedAltitude } from './observed-altitude.js';
export {
  sightPlace,
  altitudeInputOf,
  stagesOf,
  type SightPlace,
  type SightStages,
} from './sight-stages.js';
export * from './index-checks.js';
export * from './watch-correction.js';
export * from './written-column.js';
export * from './deck-watch.js';
