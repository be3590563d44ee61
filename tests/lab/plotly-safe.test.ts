import { expect, test } from 'vitest';
import { safeFigure } from '../../src/lab/render/plotly-safe.js';

test('links, images to fetch and prototype tricks are taken out of a figure', () => {
  const figure = safeFigure(
    JSON.parse(`{"data":[{"type":"scatter","x":[1],"y":[2],"text":["<a href='javascript:alert(1)'>x</a>"]}],
      "layout":{"title":{"text":"<a href=\\"https://example.org\\">t</a>"},"images":[{"source":"https://example.org/x.png"}],
      "__proto__":{"polluted":true}}}`),
  );
  const text = JSON.stringify(figure);
  expect(text).not.toMatch(/href|javascript:|example\.org|polluted/);
  expect(text).toContain('"text":["x"]');
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

test('what is not a figure is refused; so is one too deep', () => {
  for (const junk of [null, 1, 'x', [], {}, { data: {} }])
    expect(() => safeFigure(junk)).toThrow(TypeError);
  let deep: unknown = 1;
  for (let i = 0; i < 40; i++) deep = { deep };
  expect(() => safeFigure({ data: [deep] })).toThrow(/deep/);
});
