/** Colours of a drawing by role; where our style sheet is absent, the page's own text colour stands in. */
export const INK = 'var(--ch-ink,currentColor)';
export const FAINT = 'var(--ch-faint,currentColor)';
export const RULE = 'var(--ch-rule,rgba(128,128,128,.45))';
export const PAPER = 'var(--ch-paper,Canvas)';
export const ACCENT = 'var(--ch-accent,#9a0f68)';
export const REGION = 'var(--ch-region,rgba(42,127,158,.17))';
export const REGION_EDGE = 'var(--ch-region-edge,#1c6a86)';
export const REJECTED = 'var(--ch-rejected,#6b6f73)';
export const LAND = 'var(--ch-land,#eadfb8)';
export const SHORE = 'var(--ch-shore,#9a8a56)';

/** The hue of the n-th body or observer. */
export const hue = (index: number): string => `var(--ch-hue-${(index % 6) + 1},currentColor)`;

/** Dashes tell lines apart without colour; in units of the line's width they stay apart in print. */
export const DASHES = ['', '9 4', '2 4', '12 4 2 4', '16 4', '6 3 2 3 2 3'] as const;
/** The dash of the n-th: hues come round again after six, but then with another dash. */
export const dash = (index: number): string | undefined =>
  DASHES[(index + 2 * Math.floor(index / 6)) % DASHES.length] || undefined;
