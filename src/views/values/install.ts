/** How single values, and lists of them, appear in a notebook: as a navigator would write them down. */
import { Fix, FixFlag, FixLine, Residual, SlipReport } from '../../core/fix/index.js';
import { PositionLine } from '../../core/line/index.js';
import { DayWork, LunarTime, SetAndDrift, SightRun } from '../../core/methods/index.js';
import { BestSet, BodyUp } from '../../core/plan/index.js';
import { Sight, WrittenColumn } from '../../core/sextant/index.js';
import { ApparentPlace } from '../../core/sky/index.js';
import {
  Angle,
  Duration,
  Instant,
  Length,
  Position,
  Pressure,
  Speed,
  Temperature,
} from '../../core/units/index.js';
import { Uncertainty, Working } from '../../core/working/index.js';
import { installDisplay } from '../../log/display/install-display.js';
import { PassageQuality, SightLog, Track } from '../../log/index.js';
import { positionLineBundle } from '../line-bundle.js';
import type { MimeBundle } from '../mime.js';
import { tableHtml, tableText, type PlainTable } from '../plain-table.js';
import { factsBundle } from './facts.js';
import { placeFacts } from './place-facts.js';
import { installRow, rowsTable } from './row.js';
import { sightFacts } from './sight-facts.js';
import {
  bodyRow,
  causesTable,
  fixLineRow,
  flagRow,
  lineRow,
  placeRow,
  residualRow,
  sightRow,
  slipsTable,
} from './value-rows.js';

/** What any class of ours is to be told of: a prototype, and values that say themselves in a line. */
interface Said<T extends { toString(): string }> {
  readonly prototype: T;
}

/** The method by which Node's way of printing asks a value inside another how it reads. */
const INSPECT = Symbol.for('nodejs.util.inspect.custom');

/** Inside a list or an object, and in `console.log`, a value reads as the first line of its text. */
function installShort<T extends { toString(): string }>({ prototype }: Said<T>): void {
  Object.defineProperty(prototype, INSPECT, {
    configurable: true,
    enumerable: false,
    value(this: T): string {
      return this.toString().split('\n', 1)[0] ?? '';
    },
  });
}

const asText = (value: { toString(): string }): MimeBundle => ({ 'text/plain': value.toString() });
const asTable = (table: PlainTable): MimeBundle => ({
  'text/html': tableHtml(table),
  'text/plain': tableText(table),
});

const quantities = [Angle, Length, Pressure, Temperature, Speed, Duration, Instant, Position];
const lines = [
  FixFlag,
  FixLine,
  Residual,
  BodyUp,
  SetAndDrift,
  DayWork,
  LunarTime,
  SightRun,
  Track,
  WrittenColumn,
];
const tables = [Sight, ApparentPlace, Uncertainty, PositionLine, SlipReport, BestSet];
const views = [Working, Fix, SightLog, PassageQuality];

for (const one of [...quantities, ...lines, ...tables, ...views])
  installShort(one as unknown as Said<object>);
for (const one of [...quantities, ...lines])
  installDisplay<{ toString(): string }>(one as unknown as Said<object>, asText);

installDisplay<Sight>(Sight, (sight) => factsBundle(sightFacts(sight)));
installDisplay<ApparentPlace>(ApparentPlace as never, (place: ApparentPlace) =>
  factsBundle(placeFacts(place)),
);
installDisplay<Uncertainty>(Uncertainty, (uncertainty) => asTable(causesTable(uncertainty)));
installDisplay<PositionLine>(PositionLine, positionLineBundle);
installDisplay<SlipReport>(SlipReport, (report) => ({
  'text/html': tableHtml(slipsTable(report)),
  'text/plain': report.toString(),
}));
installDisplay<BestSet>(BestSet, (set) =>
  asTable(rowsTable(set.toString(), set.bodies.map(bodyRow))),
);

installRow(Sight, sightRow);
installRow(BodyUp, bodyRow);
installRow(Residual, residualRow);
installRow(FixFlag, flagRow);
installRow(FixLine, fixLineRow);
installRow(PositionLine, lineRow);
installRow(ApparentPlace as never, placeRow);
