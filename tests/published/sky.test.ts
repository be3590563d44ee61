import { gate } from './gate.js';
import { skyChecks } from './sky.checks.js';

gate('apparent places', skyChecks());
