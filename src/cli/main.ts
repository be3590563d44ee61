#!/usr/bin/env node
import { runCommandLine } from './cli.js';
import { COMMANDS } from './commands/index.js';
import { processTerminal } from './terminal.js';

process.exitCode = await runCommandLine(process.argv.slice(2), COMMANDS, processTerminal());
