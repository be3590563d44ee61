/** What all tables share. */

/** A Markdown table. @param {readonly string[]} heads @param {readonly (readonly string[])[]} rows */
export const table = (heads, rows) =>
  [heads, heads.map(() => '---'), ...rows]
    .map((cells) =>
      `| ${cells.join(' | ')} |`
        .replaceAll('| --- ', '|---')
        .replace(/^\|---(.*)---\s\|$/, '|---$1---|'),
    )
    .join('\n');

/** Two significant digits, whole above a hundred; powers of ten for what is next to nothing. */
export function digits(value) {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-5) return power(value);
  if (size >= 100) return Math.round(value).toLocaleString('en').replaceAll(',', ' ');
  return String(Number(value.toPrecision(2)));
}

const SUPERSCRIPT = '⁰¹²³⁴⁵⁶⁷⁸⁹';
function power(value) {
  const [mantissa, exponent] = value.toExponential(0).split('e-');
  return `${mantissa} · 10⁻${[...exponent].map((d) => SUPERSCRIPT[Number(d)]).join('')}`;
}

/** When and where a part was measured. @param {import('../kept.mjs').KeptPart} part */
export function circumstancesLine({ date, machine, node, load, commit }, what) {
  return `Measured ${date} (commit ${commit}), Node.js ${node}, ${machine}, load ${load}: ${what}.`;
}
