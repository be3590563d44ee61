import type { Movable, MovableName, WorkingChanges } from '../../../views/working/recompute.js';
import { choiceControl, figureControl } from '../controls.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

interface Range {
  readonly label: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly note?: (value: number, t: Services['t']) => string;
}

const onOrOff = (value: number, t: Services['t']) =>
  value === 0 ? t('none') : value > 0 ? t('on the arc') : t('off the arc');
const fastOrSlow = (value: number, t: Services['t']) =>
  value === 0 ? t('correct') : value > 0 ? t('fast') : t('slow');

const RANGES: Readonly<Record<Exclude<MovableName, 'limb'>, Range>> = {
  eyeHeightM: { label: 'Height of eye', unit: 'm', least: 0, most: 40, step: 0.1 },
  indexErrorArcmin: {
    label: 'Index error',
    unit: '′',
    least: -10,
    most: 10,
    step: 0.1,
    note: onOrOff,
  },
  temperatureC: { label: 'Temperature', unit: '°C', least: -30, most: 50, step: 1 },
  pressureHpa: { label: 'Pressure', unit: 'hPa', least: 900, most: 1060, step: 1 },
  watchErrorS: {
    label: 'Watch error',
    unit: 's',
    least: -600,
    most: 600,
    step: 1,
    note: fastOrSlow,
  },
};

/** The inputs of a working, each to be slid, typed or chosen. */
export class WorkingPanel {
  readonly element: HTMLElement;
  private readonly setters = new Map<MovableName, (value: number | string) => void>();

  constructor(
    private readonly movables: readonly Movable[],
    { t }: Services,
    onMove: (name: MovableName, value: number | string) => void,
    onReset: () => void,
  ) {
    const controls = movables.map(({ name, entered, isAssumed }) => {
      const assumed = isAssumed ? ` (${t('assumed')})` : '';
      if (name === 'limb') {
        const limbs = (['lower', 'upper', 'centre'] as const).map(
          (limb) => [limb, t(limb)] as const,
        );
        const control = choiceControl(`${t('Limb')}${assumed}`, limbs, String(entered), (value) =>
          onMove('limb', value),
        );
        this.setters.set(name, (value) => control.set(String(value)));
        return control.element;
      }
      const { label, note, ...range } = RANGES[name];
      const control = figureControl({
        ...range,
        label: `${t(label)}${assumed}`,
        entered: Number(entered),
        ...(note ? { note: (value: number) => note(value, t) } : {}),
        onMove: (value) => onMove(name, value),
      });
      this.setters.set(name, (value) => control.set(Number(value)));
      return control.element;
    });
    this.element = h(
      'details',
      { class: 'ch-panel ch-screen' },
      h('summary', {}, t('Try other figures')),
      h('div', { class: 'ch-figures-grid' }, ...controls),
      h('button', { type: 'button', onclick: onReset }, t('Back to what was entered')),
    );
  }

  show(changes: WorkingChanges): void {
    for (const { name, entered } of this.movables)
      this.setters.get(name)?.(changes[name] ?? entered);
  }
}
