import { gate } from './gate.js';
import { riseSetChecks } from './rise-set.checks.js';

gate('rise, set and twilight', riseSetChecks());
