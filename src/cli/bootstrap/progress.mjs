/**
 * Says what is being done. On a terminal one status line shows the running steps; elsewhere a line is
 * printed when a step begins and ends, and every HEARTBEAT_S seconds in between.
 */
const HEARTBEAT_S = 15;
const live = process.stdout.isTTY === true && process.env.CI === undefined;
const running = new Map();
let timer;

const seconds = (since) => ((Date.now() - since) / 1000).toFixed(1);

function eraseStatus() {
  if (live) process.stdout.write('\r\x1b[2K');
}

function drawStatus() {
  const width = (process.stdout.columns ?? 80) - 1;
  const text = [...running.values()]
    .map((step) => `${step.title} ${Math.floor((Date.now() - step.since) / 1000)} s ${step.note()}`)
    .join(' | ');
  process.stdout.write(`\r\x1b[2K${`  … ${text}`.slice(0, width)}`);
}

function heartbeat() {
  for (const step of running.values()) {
    if (Date.now() - step.spoke < HEARTBEAT_S * 1000) continue;
    step.spoke = Date.now();
    console.log(`  … ${step.title}: ${seconds(step.since)} s ${step.note()}`.trimEnd());
  }
}

/** Prints a line without spoiling the status line. */
export function say(text) {
  eraseStatus();
  console.log(text);
}

/**
 * Runs one step and prints how long it took.
 * @template T
 * @param {string} title what is being done, e.g. "npm packages"
 * @param {(step: { note(text: string | (() => string)): void }) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(title, work) {
  const record = { title, since: Date.now(), spoke: Date.now(), note: () => '' };
  running.set(record, record);
  if (!live) console.log(`  ${title} …`);
  timer ??= setInterval(live ? drawStatus : heartbeat, live ? 200 : 1000);
  try {
    const result = await work({
      note: (text) => (record.note = typeof text === 'function' ? text : () => text),
    });
    say(`  ${title}: done in ${seconds(record.since)} s`);
    return result;
  } finally {
    running.delete(record);
    eraseStatus();
    if (running.size === 0) {
      clearInterval(timer);
      timer = undefined;
    }
  }
}
