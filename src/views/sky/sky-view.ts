import { View } from '../live/view.js';
import { escapeHtml } from '../escape.js';
import { MIME, type MimeBundle } from '../mime.js';
import { tableHtml, tableText } from '../plain-table.js';
import { svgMarkup } from '../svg/svg-node.js';
import { deckRows, deckTable, deckTimes } from './deck-table.js';
import { lightSpan } from './light-svg.js';
import { skyData, type SkyData, type SkyOptions } from './sky-data.js';
import { SkyModel, startSettings, type SkySettings } from './sky-model.js';
import { skySvg, type SkyScene } from './sky-svg.js';
import { dateAndClock, lightText, placeText, setText, windowsText } from './sky-text.js';

const STILL_PX = 960;

/** All that is shown of the sky for these settings. @throws OutOfRangeError for a time outside the day of the data */
export function skyScene(model: SkyModel, settings: SkySettings): SkyScene {
  const moment = model.moment(settings);
  const windows = model.windows(settings.atMs);
  return {
    model,
    settings,
    moment,
    windows,
    found: model.bestSet(settings),
    span: lightSpan(settings.atMs, windows, model),
  };
}

/** Heading and sentences of a scene. */
export function skySentences({ settings, moment, windows, found, model }: SkyScene): {
  title: string;
  sentences: string[];
} {
  const noonAlt = model.sunAt(model.firstMs + 12 * 3_600_000).altDeg;
  return {
    title: `Sky above ${placeText(moment.dr)}, ${dateAndClock(settings.atMs)}`,
    sentences: [windowsText(windows, noonAlt > -6), lightText(moment), setText(found)],
  };
}

export function skyBundle(data: SkyData): MimeBundle {
  const model = new SkyModel(data);
  const settings = startSettings(data);
  const scene = skyScene(model, settings);
  const { title, sentences } = skySentences(scene);
  const times = deckTimes(settings.atMs, scene.windows, [model.firstMs, model.lastMs]);
  const table = deckTable(deckRows(model, scene.moment, scene.found, settings, times), times);
  const said = sentences.map((s) => `<p>${escapeHtml(s)}</p>`).join('');
  return {
    [MIME.sky]: data,
    'text/html': `<div class="cocked-hat-sky"><h3>${escapeHtml(title)}</h3>${said}${svgMarkup(skySvg(scene, STILL_PX))}${tableHtml(table)}</div>`,
    'text/plain': [title, ...sentences, tableText(table)].join('\n'),
  };
}

/**
 * The sky above a DR: what to take, altitude to preset and azimuth, from when to when the horizon can be used, and the set
 * of bodies with the best fix; a table to take on deck. `skyView({ dr, time: '2027-05-14 18:40:00 UTC', eyeHeight: '2.6 m' })`.
 * Code reads what was chosen: `(await view.state()).set`.
 * @throws EntryError for what cannot be read, OutOfRangeError for altitudes the wrong way round, ViewDataError for a figure
 * out of bounds
 */
export const skyView = (options: SkyOptions): View => {
  skyData(options);
  return new View((viewId) => skyBundle(skyData(options, viewId)));
};
