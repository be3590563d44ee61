/** The page of the deck sheet around its script and style. */
import { createHash } from 'node:crypto';

const sha = (text) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

/**
 * One HTML file that runs by itself. Nothing may be fetched, framed, posted or sent: the page runs one script and wears
 * one style, each known by its checksum.
 * @param {{ script: string, css: string, version: string }} parts
 * @returns {string}
 */
export function deckHtml({ script, css, version }) {
  const program = script.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
  const policy = [
    "default-src 'none'",
    `script-src ${sha(program)}`,
    `style-src ${sha(css)}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="generator" content="Cocked Hat ${version}">
<title>Deck sheet</title>
<link rel="icon" href="data:,">
<style>${css}</style>
</head>
<body>
<div id="deck" class="ch"><noscript>The deck sheet needs scripts: allow them for this file.</noscript></div>
<script>${program}</script>
</body>
</html>
`;
}
