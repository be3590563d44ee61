import { StringDecoder } from 'node:string_decoder';
import type { Readable, Writable } from 'node:stream';
import type { Line } from '../../cells/index.js';

/** A line to a process, through its input and output: one message of JSON a line. */
export function streamLine(input: Readable, output: Writable): Line {
  return {
    post: (message) => void output.write(`${JSON.stringify(message)}\n`),
    listen: (listener) => {
      const decoder = new StringDecoder('utf8');
      let rest: string[] = [];
      input.on('data', (chunk: Buffer) => {
        const [first = '', ...more] = decoder.write(chunk).split('\n');
        rest.push(first);
        for (const next of more) {
          listener(JSON.parse(rest.join('')));
          rest = [next];
        }
      });
    },
  };
}
