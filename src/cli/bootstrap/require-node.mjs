/** Stops with a plain sentence on a Node.js that is too old. Imported before anything else; keep its syntax old. */
const WANTED = [20, 19];

/** True if `version` ("22.3.0") is at least 20.19. */
export function isNewEnough(version) {
  const parts = version.split('.').map(Number);
  return parts[0] > WANTED[0] || (parts[0] === WANTED[0] && parts[1] >= WANTED[1]);
}

if (!isNewEnough(process.versions.node)) {
  console.error(
    'Cocked Hat needs Node.js ' +
      WANTED.join('.') +
      ' or newer; this is ' +
      process.versions.node +
      '.\nInstall a newer Node.js (see https://nodejs.org/en/download), then give the same command again.',
  );
  process.exit(1);
}
