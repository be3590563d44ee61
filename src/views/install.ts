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
import { installDisplay } from '../log/display/install-display.js';
import type { MimeBundle } from './mime.js';
import { workingBundle } from './working/index.js';

/** A quantity reads as a navigator writes it. */
const asText = (value: { toString(): string }): MimeBundle => ({ 'text/plain': value.toString() });

for (const quantity of [Angle, Length, Pressure, Temperature, Speed, Duration, Instant, Position])
  installDisplay<{ toString(): string }>(quantity as { prototype: object }, asText);
installDisplay<PositionLine>(PositionLine, positionLineBundle);
installDisplay<Fix>(Fix, chartBundle);
installDisplay<PassageQuality>(PassageQuality, passageBundle);
installDisplay<Working<unknown>>(Working as { prototype: Working<unknown> }, workingBundle);
