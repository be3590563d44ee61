import { Working } from '../core/working/index.js';
import {
  Angle,
  Duration,
  Instant,
  Length,
  Position,
  Pressure,
  Speed,
  Temperature,
} from '../core/units/index.js';
import { PositionLine } from '../core/line/index.js';
import { positionLineBundle } from './line-bundle.js';
import { Fix } from '../core/fix/index.js';
import { chartBundle } from './chart/chart-view.js';
import { PassageQuality } from '../log/index.js';
import { passageBundle } from './passage/passage-view.js';
import { DISPLAY, type MimeBundle } from './mime.js';
import { workingBundle } from './working/index.js';

/** Gives all values of a class a display, out of sight of loops over their fields. */
function install<T>(target: { readonly prototype: T }, bundle: (value: T) => MimeBundle): void {
  Object.defineProperty(target.prototype, DISPLAY, {
    configurable: true,
    enumerable: false,
    value(this: T): MimeBundle {
      return bundle(this);
    },
  });
}

/** A quantity reads as a navigator writes it. */
const asText = (value: { toString(): string }): MimeBundle => ({ 'text/plain': value.toString() });

for (const quantity of [Angle, Length, Pressure, Temperature, Speed, Duration, Instant, Position])
  install<{ toString(): string }>(quantity as { prototype: object }, asText);
install<PositionLine>(PositionLine, positionLineBundle);
install<Fix>(Fix, chartBundle);
install<PassageQuality>(PassageQuality, passageBundle);
install<Working<unknown>>(Working as { prototype: Working<unknown> }, workingBundle);
