import type { Working } from '../../core/working/index.js';
import { MIME, type MimeBundle } from '../mime.js';
import { workingData } from './working-data.js';
import { workingHtml } from './working-html.js';
import { workingText } from './working-text.js';

/** What a notebook shows for a working: our interactive view, a static table, aligned text. */
export function workingBundle(working: Working<unknown>): MimeBundle {
  const data = workingData(working);
  return {
    [MIME.working]: data,
    'text/html': workingHtml(data),
    'text/plain': workingText(data),
  };
}
