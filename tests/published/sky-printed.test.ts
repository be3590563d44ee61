import { gate } from './gate.js';
import { printedSkyChecks } from './sky-printed.checks.js';

gate('apparent places in print', printedSkyChecks());
