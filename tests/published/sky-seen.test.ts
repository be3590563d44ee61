import { gate } from './gate.js';
import { seenSkyChecks } from './sky-seen.checks.js';

gate('places as seen', seenSkyChecks());
