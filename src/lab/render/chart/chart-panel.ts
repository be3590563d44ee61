import type { ChartChanges, ChartModel } from '../../../views/chart/chart-model.js';
import type { ChartChoices } from '../../../views/chart/scene.js';
import { choiceControl, figureControl, switchControl } from '../controls.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

export interface PanelCallbacks {
  readonly onChange: (change: ChartChanges) => void;
  readonly onChoice: (choice: Partial<ChartChoices>) => void;
  readonly onReset: () => void;
}

const LEVELS = [0.5, 0.68, 0.9, 0.95, 0.99] as const;
/** Shown on the slider while each sight keeps its own error budget. */
const USUAL_SIGMA_ARCMIN = 0.8;

/** What the fix rests on and what the chart shows, each to be moved or switched. */
export class ChartPanel {
  readonly element: HTMLElement;
  private readonly setters: ((changes: ChartChanges, choices: ChartChoices) => void)[] = [];

  constructor(
    model: ChartModel,
    choices: ChartChoices,
    { t }: Services,
    { onChange, onChoice, onReset }: PanelCallbacks,
  ) {
    const entered = model.entered;
    const course = figureControl({
      label: t('Course'),
      unit: '° T',
      least: 0,
      most: 360,
      step: 1,
      entered: entered.courseDeg ?? 0,
      onMove: (courseDeg) => onChange({ courseDeg: courseDeg % 360 }),
    });
    const speed = figureControl({
      label: t('Speed'),
      unit: 'kn',
      least: 0,
      most: 30,
      step: 0.1,
      entered: entered.speedKn ?? 0,
      onMove: (speedKn) => onChange({ speedKn }),
    });
    const sigmaNote = (isOwn: boolean) => (isOwn ? t('each sight’s own') : t('every sight'));
    let isOwnSigma = entered.sigmaArcmin === undefined;
    const sigma = figureControl({
      label: t('σ of an altitude'),
      unit: '′',
      least: 0.1,
      most: 5,
      step: 0.1,
      entered: entered.sigmaArcmin ?? USUAL_SIGMA_ARCMIN,
      note: () => sigmaNote(isOwnSigma),
      onMove: (sigmaArcmin) => {
        isOwnSigma = false;
        onChange({ sigmaArcmin });
      },
    });
    const level = choiceControl(
      t('Region holds the ship with'),
      [...new Set([...LEVELS, entered.level])]
        .sort()
        .map((l) => [String(l), `${Number((l * 100).toFixed(1))} %`] as const),
      String(entered.level),
      (value) => onChange({ level: Number(value) }),
    );
    const bias = switchControl(
      t('Find an error common to all sights'),
      entered.commonBias,
      (commonBias) => onChange({ commonBias }),
    );
    const scatter = switchControl(
      t('Find σ from the scatter'),
      entered.estimateSigma,
      (estimateSigma) => onChange({ estimateSigma }),
    );
    const shows = (
      [
        ['bands', t('Bands of ± 1σ')],
        ['before', t('Lines as taken, and their run')],
        ['intercepts', t('Intercepts from the DR')],
        ['hat', t('Cocked hat')],
        ['coast', t('Coastline')],
      ] as const
    ).map(([name, label]) => {
      const control = switchControl(label, choices[name], (isOn) => onChoice({ [name]: isOn }));
      this.setters.push((_, now) => control.set(now[name]));
      return control.element;
    });
    this.setters.push((c) => {
      course.set(c.courseDeg ?? entered.courseDeg ?? 0);
      speed.set(c.speedKn ?? entered.speedKn ?? 0);
      isOwnSigma = c.sigmaArcmin === undefined && entered.sigmaArcmin === undefined;
      sigma.set(c.sigmaArcmin ?? entered.sigmaArcmin ?? USUAL_SIGMA_ARCMIN);
      level.set(String(c.level ?? entered.level));
      bias.set(c.commonBias ?? entered.commonBias);
      scatter.set(c.estimateSigma ?? entered.estimateSigma);
    });
    this.element = h(
      'div',
      { class: 'ch-side ch-screen' },
      h(
        'fieldset',
        {},
        h('legend', {}, t('What the fix rests on')),
        course.element,
        speed.element,
        sigma.element,
        level.element,
        bias.element,
        scatter.element,
      ),
      h('fieldset', { class: 'ch-shows' }, h('legend', {}, t('Shown on the chart')), ...shows),
      h('button', { type: 'button', onclick: onReset }, t('Back to what was entered')),
    );
  }

  show(changes: ChartChanges, choices: ChartChoices): void {
    for (const set of this.setters) set(changes, choices);
  }
}
