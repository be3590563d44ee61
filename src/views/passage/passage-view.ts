import { reportHtml, type PassageQuality } from '../../log/index.js';
import { MIME, type MimeBundle } from '../mime.js';
import { passageData } from './passage-data.js';

/** What a notebook shows for the quality of a passage: the report with its plots, still HTML, text. */
export const passageBundle = (quality: PassageQuality): MimeBundle => ({
  [MIME.passage]: passageData(quality),
  'text/html': reportHtml(quality.report),
  'text/plain': quality.toText(),
});
