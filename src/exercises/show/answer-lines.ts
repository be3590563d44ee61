import { formOfLine, type Question } from '../question/index.js';

/** The lines to fill in, as they stand in an answer: `dip: '',  // Dip, as +1.4′ or −2.8′`. */
export function answerLines<G>({ lines }: Question<G>): string {
  const heads = lines.map((line) => `${line.id}: '',`);
  const width = Math.max(...heads.map((head) => head.length));
  return lines
    .map((line, i) => {
      return `${(heads[i] ?? '').padEnd(width)}  // ${line.title}: ${formOfLine(line)}`;
    })
    .join('\n');
}
