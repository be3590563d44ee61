export interface Figure {
  readonly data: unknown[];
  readonly layout: Record<string, unknown>;
}

const MAX_DEPTH = 12;
const MAX_VALUES = 2_000_000;
/** plotly writes these texts as links or fetches what they point to. */
const FETCHING = new Set(['source', 'topojsonURL', 'plotlyServerURL', 'sourcesrc']);
const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

/** plotly turns `<a href>` in texts into links; nothing else of its small HTML can act. */
const withoutLinks = (text: string) => text.replace(/<\s*\/?\s*a\b[^>]*>?/gi, '');

/**
 * A figure out of a notebook file, made harmless: only plain data, no links in texts, no images or other
 * addresses to fetch. @throws TypeError when it is not a figure.
 */
export function safeFigure(value: unknown): Figure {
  let left = MAX_VALUES;
  const clean = (v: unknown, depth: number): unknown => {
    if (--left < 0) throw new TypeError('this plotly figure is too large to show');
    if (depth > MAX_DEPTH) throw new TypeError('this plotly figure is nested too deeply');
    if (typeof v === 'string') return withoutLinks(v);
    if (Array.isArray(v)) return v.map((item) => clean(item, depth + 1));
    if (typeof v !== 'object' || v === null) return v;
    return Object.fromEntries(
      Object.entries(v)
        .filter(([key]) => !FORBIDDEN.has(key) && !FETCHING.has(key))
        .map(([key, item]) => [key, clean(item, depth + 1)]),
    );
  };
  const figure = clean(value, 0);
  if (typeof figure !== 'object' || figure === null || !Array.isArray((figure as Figure).data))
    throw new TypeError('this is not a plotly figure: it has no list `data`');
  const { data, layout } = figure as Figure;
  return { data, layout: typeof layout === 'object' && layout !== null ? layout : {} };
}
