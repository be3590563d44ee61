import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const css = fs.readFileSync(
  path.resolve(import.meta.dirname, '../../src/lab/render/css/roles.css'),
  'utf8',
);

/** Contrast ratio of two opaque colours: W3C, Web Content Accessibility Guidelines 2.2 (2023), "contrast ratio". */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const full = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, '$&$&') : hex;
    const [r, g, b] = [1, 3, 5].map((i) => {
      const c = parseInt(full.slice(i, i + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
  };
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

const blocks = [...css.matchAll(/\{([^{}]*--ch-paper[^{}]*)\}/g)].map(([, body]) =>
  Object.fromEntries(
    [...(body ?? '').matchAll(/--ch-([\w-]+):\s*([^;]+);/g)].map(([, k, v]) => [k, v]),
  ),
);
const TEXT = [
  'ink',
  'faint',
  'accent',
  'caution',
  'rejected',
  'hue-1',
  'hue-2',
  'hue-3',
  'hue-4',
  'hue-5',
  'hue-6',
];

test('every theme defines its roles, and text in each keeps 4.5 : 1 on paper and on panels', () => {
  expect(blocks).toHaveLength(6);
  for (const [i, block] of blocks.entries())
    for (const role of TEXT)
      for (const ground of ['paper', 'panel'])
        expect(
          contrast(block[role] ?? '', block[ground] ?? ''),
          `${role} on ${ground} in theme ${i + 1}`,
        ).toBeGreaterThanOrEqual(4.5);
});

test('every colour of the night theme is a red: green and blue stay under 0.62 of it', () => {
  const night: Record<string, string> = blocks[4] ?? {};
  for (const [role, value] of Object.entries(night)) {
    const [r, g, b] = [1, 3, 5].map((i) => parseInt((value ?? '').slice(i, i + 2), 16) || 0);
    if ((value ?? '').length >= 7)
      expect(Math.max(g ?? 0, b ?? 0), role).toBeLessThanOrEqual((r ?? 0) * 0.62);
  }
});
