import 'cocked-hat';
import { correctionChecks } from './corrections.checks.js';
import { gate } from './gate.js';

gate('corrections', correctionChecks());
