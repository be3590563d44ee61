/** The ways in which a text can stand in a file without being seen at a glance. */
export function encodedForms(text: string): ReadonlyMap<string, string> {
  const utf8 = Buffer.from(text, 'utf8');
  const utf16 = Buffer.from(text, 'utf16le');
  const plain = text.replaceAll('′', "'").replaceAll('−', '-').replaceAll('″', '"');
  const forms: [string, string][] = [
    ['plain', text],
    ['plain with ASCII marks', plain],
    ['spaced degrees', plain.replace(/°\s*/, '° ').replace(/'/g, '')],
    ['JSON escapes', escapes(text, (c) => `\\u${hex(c, 4)}`)],
    ['CSS escapes', escapes(text, (c) => `\\${hex(c, 1)} `)],
    ['HTML entities, decimal', escapes(text, (c) => `&#${c};`)],
    ['HTML entities, hexadecimal', escapes(text, (c) => `&#x${hex(c, 1)};`)],
    ['HTML names', html(text)],
    ['percent encoding', encodeURIComponent(text)],
    ['hexadecimal', utf8.toString('hex')],
    ['character codes', [...text].map((c) => c.codePointAt(0)).join(',')],
    ['byte codes', [...utf8].join(',')],
    ['reversed', [...text].reverse().join('')],
    ['rot13', text.replace(/[a-z]/gi, rot13)],
    ...base64Forms(utf8, 'base64'),
    ...base64Forms(utf16, 'base64 of UTF-16'),
    ['UTF-16', utf16.toString('latin1')],
  ];
  return new Map(forms.filter(([name, form]) => name === 'plain' || form !== text));
}

const hex = (code: number, width: number) => code.toString(16).padStart(width, '0');
const escapes = (text: string, write: (code: number) => string) =>
  [...text].map((c) => (c.charCodeAt(0) < 128 ? c : write(c.charCodeAt(0)))).join('');
const html = (text: string) =>
  text.replaceAll('°', '&deg;').replaceAll('′', '&prime;').replaceAll('−', '&minus;');
function rot13(letter: string): string {
  const base = letter <= 'Z' ? 65 : 97;
  return String.fromCharCode(((letter.charCodeAt(0) - base + 13) % 26) + base);
}

/** What base64 makes of a text at each of its three places in a group of bytes, without the ends that depend on its neighbours. */
function base64Forms(bytes: Buffer, name: string): [string, string][] {
  return [0, 1, 2].map((shift) => {
    const padded = Buffer.concat([Buffer.alloc(shift), bytes])
      .toString('base64')
      .replace(/=+$/, '');
    const from = Math.ceil((shift * 4) / 3);
    const to = Math.floor(((shift + bytes.length) * 4) / 3);
    return [`${name}, place ${shift}`, padded.slice(from, to)];
  });
}
