import katex from 'katex';
import type { Formulas } from './formulas.js';
import { katexStyle } from './katex-style.js';

/** KaTeX as our formula setter, its style in the page. */
export function katexFormulas(): Formulas {
  const style = document.createElement('style');
  style.textContent = katexStyle;
  document.head.append(style);
  return {
    typeset(host, latex) {
      katex.render(latex, host, {
        displayMode: false,
        throwOnError: false,
        trust: false,
        maxExpand: 200,
      });
    },
  };
}
