import { gate } from './gate.js';
import { timeChecks } from './time.checks.js';

gate('time scales', timeChecks());
