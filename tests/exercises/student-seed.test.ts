import { describe, expect, it } from 'vitest';
import { seedCode, studentSeed } from '../../src/exercises/index.js';
import { fnv1a } from '../../src/exercises/seed/index.js';

describe('the seed of a student', () => {
  it('hashes as the published test vectors of FNV-1a', () => {
    // IETF draft-eastlake-fnv (The FNV Non-Cryptographic Hash Algorithm), test vectors for 32-bit FNV-1a (from memory).
    expect(fnv1a('')).toBe(0x811c9dc5);
    expect(fnv1a('a')).toBe(0xe40c292c);
    expect(fnv1a('foobar')).toBe(0xbf9cf968);
  });
  it('is the same for a name written with other capitals and spaces', () => {
    const seed = studentSeed('Ana Lima', 'sun-altitude');
    expect(studentSeed('  ana   LIMA ', 'sun-altitude')).toBe(seed);
    expect(studentSeed('Åsa', 'x')).toBe(studentSeed('A\u030Asa', 'x'));
  });
  it('differs between names, exercises and classes', () => {
    const seeds = new Set<number>();
    for (let i = 0; i < 500; i++)
      for (const exercise of ['a', 'b'])
        for (const course of ['', '2027']) seeds.add(studentSeed(`student ${i}`, exercise, course));
    expect(seeds.size).toBe(2000);
  });
  it('prints as a code without letters that are taken for one another', () => {
    expect(seedCode(0)).toBe('222-2222');
    expect(seedCode(0xffffffff)).toMatch(/^[2-9A-HJ-NP-Z]{3}-[2-9A-HJ-NP-Z]{4}$/);
    expect(seedCode(1)).not.toBe(seedCode(2));
  });
  it('refuses an empty name and a name that is no text', () => {
    expect(() => studentSeed('  ', 'x')).toThrow(/name is missing/);
    expect(() => studentSeed(7 as never, 'x')).toThrow(/name is text/);
  });
});
