import { parseArgs } from 'node:util';

/**
 * Reads the words given to a command of package.json: `--help` prints how it is used and ends it with code 0; what it does not
 * know is said in one line, with the usage, and ends it with code 2.
 *
 * @param {string} usage how it is used, with what it does
 * @param {import('node:util').ParseArgsConfig['options']} [options] as parseArgs of node:util takes them
 * @param {readonly string[] | 'any'} [words] the words that may stand beside the options; none unless said
 * @param {readonly string[]} [args] what was given
 */
export function wordsGiven(usage, options = {}, words = [], args = process.argv.slice(2)) {
  const help = { type: 'boolean', short: 'h', default: false };
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], allowPositionals: true, options: { ...options, help } }),
  );
  if (values.help) {
    console.log(usage);
    process.exit(0);
  }
  const strange = words === 'any' ? [] : positionals.filter((word) => !words.includes(word));
  if (strange.length > 0) wrong(`${strange.join(', ')}: ${known(words)}`);
  return { values, positionals };

  function read(parse) {
    try {
      return parse();
    } catch (error) {
      return wrong(error.message.split('. ')[0]);
    }
  }
  function wrong(message) {
    console.error(`${message}.\n\n${usage}`);
    process.exit(2);
  }
}

const known = (words) =>
  words.length === 0 ? 'no word is expected here' : `what can be named is ${words.join(', ')}`;
