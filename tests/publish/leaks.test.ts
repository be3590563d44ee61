import zlib from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { encodedForms, findLeaks, secretsOf, type Secret } from '../../src/publish/source/index.js';

const SECRET: Secret = { kind: 'figure', text: '41°15.3′' };
const found = (text: string | Uint8Array) =>
  findLeaks([{ name: 'f', bytes: typeof text === 'string' ? Buffer.from(text) : text }], [SECRET]);
const around = (text: string) => `<p>before ${text} after</p>`;

describe('the search for answers', () => {
  it.each([...encodedForms(SECRET.text)].map(([name, form]) => [name, form]))(
    'finds a figure written as %s',
    (_name, form) => {
      expect(
        found(Buffer.from(around(form), 'latin1')).length + found(around(form)).length,
      ).toBeGreaterThan(0);
    },
  );
  it.each([0, 1, 2, 3, 17])('finds it in base64 behind %i other bytes', (n) => {
    const text = 'x'.repeat(n) + SECRET.text + 'y'.repeat(60);
    expect(found(around(Buffer.from(text).toString('base64'))).length).toBe(1);
  });
  it('finds it in a packed file and in a packed part of a page', () => {
    const text = Buffer.from(
      `{"answers":["${SECRET.text}"],"filler":"${Math.PI.toString().repeat(9)}"}`,
    );
    expect(found(zlib.gzipSync(text))[0]?.form).toBe('plain in a packed file');
    expect(found(zlib.deflateSync(text))[0]?.form).toBe('plain in a packed file');
    expect(found(around(zlib.gzipSync(text).toString('base64')))[0]?.form).toBe(
      'plain in a packed part',
    );
  });
  it('finds nothing in a page that holds other figures', () => {
    expect(found(around('41°15.4′, 41.2545, 1°15.3′'))).toEqual([]);
  });
});

describe('what counts as an answer', () => {
  const blank = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells: [] };
  it('is a figure of four digits or more that the question does not give, and a line of a solution', () => {
    const secrets = secretsOf(
      ['  const zenith = Angle.degrees(90).minus(all.value);', '}'],
      ['41°15.3′', '−2.8′', '0.000028', '48°31.4′'],
      blank,
      'Sextant reading 48°31.4′',
    );
    expect(secrets.map((s) => s.text)).toEqual([
      'const zenith = Angle.degrees(90).minus(all.value);',
      '41°15.3′',
    ]);
  });
});
