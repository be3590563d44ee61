/** The commands, in the order in which help lists them. */
import type { Command } from '../command.js';
import { doctor } from './doctor.js';
import { open } from './open.js';
import { publish } from './publish.js';
import { run } from './run.js';

export const COMMANDS: readonly Command[] = [open, run, publish, doctor];
