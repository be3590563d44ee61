/**
 * Writes the demo logs of data/demo from the library's seeded simulator: node data/make/demo-logs.mjs (after npm run build).
 * The same version and seeds give the same files.
 */
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  simulateLunarDistances,
  simulateMoonAndPlanets,
  simulateNoonRound,
  simulatePassage,
  simulatePracticeAfternoon,
  simulateWinterClass,
  toGpx,
} from 'cocked-hat';

const DEMO = fileURLToPath(new URL('../demo/', import.meta.url));
const { version } = JSON.parse(
  fs.readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
);
const PRACTICE_SEED = 20270503;
const PASSAGE_SEED = 20270504;

const head = (what, seed) => [
  `${what} of the yawl Quillfeather, which does not exist. Simulated, not observed.`,
  `Library almanac and a seeded error model: Cocked Hat ${version}, seed ${seed}. What is true stands in the truth file beside this one.`,
];

const write = (name, text) => {
  fs.writeFileSync(DEMO + name, text);
  console.log(`data/demo/${name}: ${text.length} characters`);
};

/** Planted errors, and place, time and scatter of every reading. */
function truthOf({ planted, readings }, seed) {
  return {
    simulated: true,
    madeBy: `Cocked Hat ${version}, data/make/demo-logs.mjs`,
    seed,
    signs: 'reads too high +, on the arc +, fast +; angles in minutes of arc, north and east +',
    planted,
    readings: readings.map(({ truth, notedMs, scatterArcmin }) => ({
      round: truth.round,
      sight: truth.sight,
      notedUtc: new Date(notedMs).toISOString(),
      trueUtc: new Date(truth.utcMs).toISOString(),
      body: truth.body,
      latDeg: Number(truth.latDeg.toFixed(6)),
      lonDeg: Number(truth.lonDeg.toFixed(6)),
      scatterArcmin: Number(scatterArcmin.toFixed(3)),
      dipErrorArcmin: Number(truth.dipErrorArcmin.toFixed(3)),
      indexErrorArcmin: Number(truth.indexErrorArcmin.toFixed(3)),
      clockErrorS: Number(truth.clockErrorS.toFixed(2)),
      ...(truth.slip ? { slip: truth.slip } : {}),
    })),
  };
}
/** One reading a line, so that a change shows. */
const json = (truth) => {
  const { readings, ...rest } = truth;
  const lines = readings.map((r) => `    ${JSON.stringify(r)}`).join(',\n');
  return `${JSON.stringify(rest, null, 2).slice(0, -2)},\n  "readings": [\n${lines}\n  ]\n}\n`;
};

const practice = simulatePracticeAfternoon(
  PRACTICE_SEED,
  head('A practice afternoon on the beach, before the passage', PRACTICE_SEED),
);
write('practice-afternoon.csv', practice.csv);
write('practice-afternoon-truth.json', json(truthOf(practice, PRACTICE_SEED)));

const passage = simulatePassage(
  PASSAGE_SEED,
  head('The passage from Walvis Bay by St Helena to Ascension', PASSAGE_SEED),
);
write('passage.csv', passage.csv);
write('passage-track.gpx', toGpx([passage.track], `Cocked Hat ${version}, simulated, seed ${PASSAGE_SEED}`));
write('passage-truth.json', json(truthOf(passage, PASSAGE_SEED)));

const rounds = [
  ['noon', 20270509, simulateNoonRound, 'The round of readings about noon of 9 May'],
  ['moon-and-planets', 20270512, simulateMoonAndPlanets, 'The Moon by day and Venus at dawn, 12 and 13 May,'],
  ['winter-class', 20270703, simulateWinterClass, 'The winter class ashore of the crew'],
];
for (const [name, seed, simulate, what] of rounds) {
  const made = simulate(seed, head(what, seed));
  write(`${name}.csv`, made.csv);
  write(`${name}-truth.json`, json(truthOf(made, seed)));
}

const LUNAR_SEED = 20270513;
const lunar = simulateLunarDistances(
  LUNAR_SEED,
  head('Distances of the near limbs of Sun and Moon on the afternoon of 12 May', LUNAR_SEED),
);
write('lunar-distances.csv', lunar.csv);
write(
  'lunar-distances-truth.json',
  `${JSON.stringify({ simulated: true, madeBy: `Cocked Hat ${version}, data/make/demo-logs.mjs`, seed: LUNAR_SEED, signs: 'fast +', planted: lunar.planted }, null, 2)}\n`,
);
