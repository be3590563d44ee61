import { gate } from './gate.js';
import { reductionChecks } from './reduction.checks.js';

gate('reduction and sailings', reductionChecks());
