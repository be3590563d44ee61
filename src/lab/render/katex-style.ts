import css from 'katex/dist/katex.min.css';
import ams from 'katex/dist/fonts/KaTeX_AMS-Regular.woff2';
import mainRegular from 'katex/dist/fonts/KaTeX_Main-Regular.woff2';
import mainItalic from 'katex/dist/fonts/KaTeX_Main-Italic.woff2';
import mathItalic from 'katex/dist/fonts/KaTeX_Math-Italic.woff2';
import size1 from 'katex/dist/fonts/KaTeX_Size1-Regular.woff2';
import size2 from 'katex/dist/fonts/KaTeX_Size2-Regular.woff2';
import size3 from 'katex/dist/fonts/KaTeX_Size3-Regular.woff2';
import size4 from 'katex/dist/fonts/KaTeX_Size4-Regular.woff2';

/** The faces that formulas of navigation use; a browser fetches a face when a glyph of it is shown. */
const FACES: Readonly<Record<string, string>> = {
  'KaTeX_AMS-Regular': ams,
  'KaTeX_Main-Regular': mainRegular,
  'KaTeX_Main-Italic': mainItalic,
  'KaTeX_Math-Italic': mathItalic,
  'KaTeX_Size1-Regular': size1,
  'KaTeX_Size2-Regular': size2,
  'KaTeX_Size3-Regular': size3,
  'KaTeX_Size4-Regular': size4,
};

const address = (face: string) =>
  face.startsWith('data:') ? face : new URL(face, import.meta.url).href;

/** KaTeX's own style sheet with its font addresses turned to the files beside this module. */
export const katexStyle = css.replace(/@font-face\{[^}]*\}/g, (rule) => {
  const name = /url\(fonts\/([\w-]+)\.woff2\)/.exec(rule)?.[1] ?? '';
  const face = FACES[name];
  return face === undefined
    ? ''
    : rule.replace(/src:[^;}]*/, `src:url("${address(face)}") format("woff2")`);
});
