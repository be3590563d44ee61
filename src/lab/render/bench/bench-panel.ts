import type { BenchData } from '../../../views/bench/bench-data.js';
import { readingDegrees } from '../../../views/instrument/instrument-data.js';
import { readingText } from '../../../views/instrument/misreading.js';
import { choiceControl, figureControl, switchControl } from '../controls.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';
import { SHADES, type Shade, type Shades } from './eye-safety.js';

/** What the controls do. */
export interface PanelActs {
  turnTo(arcmin: number): void;
  rockTo(degrees: number): void;
  shade(which: keyof Shades, shade: Shade): void;
  invert(isInverted: boolean): void;
  mark(): void;
  preset(): void;
  goOn(): void;
  save(): void;
}

export interface PanelStart {
  readonly arcmin: number;
  readonly tiltDeg: number;
  readonly shades: Shades;
}

export interface BenchPanel {
  readonly element: HTMLElement;
  setArcmin(arcmin: number): void;
  setTilt(degrees: number): void;
  setShade(which: keyof Shades, shade: Shade): void;
  setInverted(isInverted: boolean): void;
  /** The way back is offered only where the exercise has stopped. */
  setStopped(isStopped: boolean): void;
  /** A log without a mark is not saved. */
  setMarked(count: number): void;
}

export const DRUM = { least: -300, most: 8400 } as const;
export const ROCK = { least: -20, most: 20 } as const;

/** Only what does not burn may be looked at straight: a star or a planet, over the sea. */
export const canInvert = (data: BenchData): boolean =>
  data.limb === 'centre' && data.horizon === 'natural';

/** The controls beside the field. */
export function benchPanel(
  data: BenchData,
  { t }: Services,
  start: PanelStart,
  acts: PanelActs,
): BenchPanel {
  const drum = figureControl({
    label: t('Drum and arc'),
    unit: '',
    ...DRUM,
    step: 0.1,
    entered: start.arcmin,
    entry: { write: (v) => readingText(v / 60), read: (text) => 60 * readingDegrees(text) },
    onMove: (v) => acts.turnTo(v),
  });
  const tilt = figureControl({
    label: t('Rock'),
    unit: '°',
    ...ROCK,
    step: 0.5,
    entered: start.tiltDeg,
    onMove: (v) => acts.rockTo(v),
  });
  const shadeChoice = (which: keyof Shades, label: string) =>
    choiceControl(
      label,
      SHADES.map((shade) => [shade, t(shade)] as const),
      start.shades[which],
      (value) => acts.shade(which, value as Shade),
    );
  const shades = {
    index: shadeChoice('index', t('Shade before the index mirror')),
    horizon: shadeChoice('horizon', t('Shade before the horizon glass')),
  };
  const inverted = switchControl(t('Upside down: bring the horizon up'), false, acts.invert);
  const button = (name: string, onclick: () => void) =>
    h('button', { type: 'button', onclick }, name);
  const goOn = button(t('Go on'), acts.goOn);
  const save = button(t('Save the log'), acts.save);
  goOn.hidden = true;
  save.disabled = true;
  return {
    element: h(
      'div',
      {},
      drum.element,
      tilt.element,
      shades.index.element,
      shades.horizon.element,
      canInvert(data) ? inverted.element : null,
      h(
        'div',
        { class: 'ch-bar-row' },
        button(t('Mark'), acts.mark),
        button(t('Preset the altitude'), acts.preset),
        goOn,
        save,
      ),
      h(
        'p',
        { class: 'ch-sub' },
        t(
          'Drag across to rock, up and down to turn the drum; or the arrow keys. Space marks the moment.',
        ),
      ),
    ),
    setArcmin: (arcmin) => drum.set(arcmin),
    setTilt: (degrees) => tilt.set(degrees),
    setShade: (which, shade) => shades[which].set(shade),
    setInverted: (isInverted) => inverted.set(isInverted),
    setStopped: (isStopped) => void (goOn.hidden = !isStopped),
    setMarked: (count) => void (save.disabled = count === 0),
  };
}
