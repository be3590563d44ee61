/** The commands, in the order in which help lists them. */
import type { Command } from '../command.js';
import { deck } from './deck.js';
import { doctor } from './doctor.js';
import { guide } from './guide.js';
import { mark } from './mark.js';
import { open } from './open.js';
import { publish } from './publish.js';
import { reproduce } from './reproduce.js';
import { run } from './run.js';

export const COMMANDS: readonly Command[] = [
  open,
  run,
  publish,
  mark,
  reproduce,
  deck,
  guide,
  doctor,
];
