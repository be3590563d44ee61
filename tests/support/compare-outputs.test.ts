import { describe, expect, it } from 'vitest';
import { compareOutputs, type Output } from './compare-outputs.js';

const result = (data: Record<string, unknown>): Output => ({ output_type: 'execute_result', data });
const compare = (kept: Output, now: Output) => compareOutputs([kept], [now], 'cell 1');

describe('the comparison of a notebook with its kept outputs', () => {
  it('accepts a last-digit difference in text and figures', () => {
    const kept = { 'text/plain': 'x 0.30000000000000004', 'application/vnd.plotly.v1+json': [1] };
    const now = { 'text/plain': 'x 0.3', 'application/vnd.plotly.v1+json': [1.0000000000000002] };
    expect(compare(result(kept), result(now))).toEqual([]);
  });

  it('rejects a difference in the ninth digit and names the place', () => {
    const mime = 'application/vnd.cocked-hat.working.v1+json';
    const kept = result({ [mime]: { steps: [{ value: 34.5 }] } });
    const now = result({ [mime]: { steps: [{ value: 34.5000001 }] } });
    expect(compare(kept, now)).toEqual([
      `cell 1 output 1 ${mime}.steps.0.value: kept 34.5, now 34.5000001`,
    ]);
  });

  it.each([
    ['a changed word', { 'text/plain': 'a 1' }, { 'text/plain': 'b 1' }],
    ['a changed figure in text', { 'text/plain': '1.5′' }, { 'text/plain': '1.6′' }],
    ['a changed sign', { 'text/plain': '−1.5′' }, { 'text/plain': '1.5′' }],
    [
      'a missing field',
      { 'application/vnd.plotly.v1+json': { a: 1 } },
      { 'application/vnd.plotly.v1+json': {} },
    ],
    [
      'a shorter list',
      { 'application/vnd.plotly.v1+json': [1, 2] },
      { 'application/vnd.plotly.v1+json': [1] },
    ],
    ['a missing kind', { 'text/plain': 'a', 'text/html': 'a' }, { 'text/plain': 'a' }],
  ])('rejects %s', (_what, kept, now) => {
    expect(compare(result(kept), result(now)).length).toBeGreaterThan(0);
  });

  it('takes text as a list of lines or as one string', () => {
    const kept: Output = { output_type: 'stream', name: 'stdout', text: ['a\n', 'b\n'] };
    expect(compare(kept, { ...kept, text: 'a\nb\n' })).toEqual([]);
    expect(compare(kept, { ...kept, text: 'a\nc\n' }).length).toBe(1);
    expect(compare(kept, { ...kept, name: 'stderr' }).length).toBe(1);
  });

  it('rejects an output more or less, and another kind of output', () => {
    const output = result({ 'text/plain': 'a' });
    expect(compareOutputs([output], [], 'cell 1').length).toBeGreaterThan(0);
    expect(compareOutputs([], [output], 'cell 1').length).toBeGreaterThan(0);
    const error: Output = { output_type: 'error', ename: 'RangeError', evalue: 'no' };
    expect(compare(output, error).length).toBeGreaterThan(0);
    expect(compare(error, { ...error, evalue: 'yes' }).length).toBe(1);
  });
});
