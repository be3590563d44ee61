/** The parts of the report: the program that measures each, its arguments, and how long it takes on two free cores. */

/** @typedef {{ name: string, script: string, args: string[], seconds: number }} Part */

/** @param {{ rounds: string, sights: string }} size @returns {Part[]} */
export const parts = ({ rounds, sights }) => [
  { name: 'accuracy', script: 'tests/published/run-accuracy.mjs', args: [], seconds: 40 },
  { name: 'calibration', script: 'tests/bench/calibration.mjs', args: [rounds], seconds: 300 },
  { name: 'slips', script: 'tests/bench/slips.mjs', args: [sights], seconds: 90 },
  { name: 'sky', script: 'tests/bench/sky.mjs', args: [], seconds: 15 },
  { name: 'reduction', script: 'tests/bench/reduction.mjs', args: [], seconds: 30 },
  { name: 'log', script: 'tests/bench/log.mjs', args: [], seconds: 20 },
  { name: 'kernel', script: 'tests/bench/kernel.mjs', args: [], seconds: 90 },
  { name: 'views', script: 'tests/bench/views.mjs', args: [], seconds: 40 },
  { name: 'publish', script: 'tests/bench/publish.mjs', args: [], seconds: 60 },
  { name: 'lite', script: 'tests/bench/lite.mjs', args: [], seconds: 75 },
  { name: 'sizes', script: 'tests/bench/sizes.mjs', args: [], seconds: 15 },
];
