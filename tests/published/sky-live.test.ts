import { gate } from './gate.js';
import { liveSkyChecks } from './sky-live.checks.js';

gate('apparent places, against libraries run now', liveSkyChecks());
