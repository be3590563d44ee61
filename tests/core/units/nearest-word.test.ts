import { describe, expect, it } from 'vitest';
import { editDistance, nearest } from '../../../src/core/units/nearest-word.js';

describe('editDistance', () => {
  // The first two pairs are the usual textbook examples (from memory); the others count by hand.
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'run', 3],
    ['run', 'run', 0],
    ['rnu', 'run', 1],
  ])('from %s to %s is %i', (from, to, edits) => {
    expect(editDistance(from, to)).toBe(edits);
    expect(editDistance(to, from)).toBe(edits);
  });
});

describe('the nearest word', () => {
  const words = ['open', 'run', 'doctor', 'no-browser'];

  it.each([
    ['opne', 'open'],
    ['Run', 'run'],
    ['docter', 'doctor'],
    ['nobrowser', 'no-browser'],
  ])('takes %s for %s', (typed, meant) => {
    expect(nearest(typed, words)).toBe(meant);
  });

  it('does not guess when nothing is near', () => {
    expect(nearest('chart', words)).toBeUndefined();
    expect(nearest('x', [])).toBeUndefined();
  });
});
