import { gate } from './gate.js';
import { liveSkyChecks } from './sky-live.checks.js';
import { skyViewChecks } from './sky-view.checks.js';

gate('apparent places, against libraries run now', liveSkyChecks());
gate('what the sky view shows, against libraries run now', skyViewChecks());
