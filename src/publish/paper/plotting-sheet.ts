import { formatLatitude, formatLongitude } from '../../core/units/index.js';

const WIDTH_MM = 180;
const HEIGHT_MM = 180;
/** One minute of latitude, and so one nautical mile, on the sheet. */
const MINUTE_MM = 3;
const STEP_MIN = 10;
const ROSE_MM = 40;

/**
 * A plotting sheet about a DR, to scale: one minute of latitude is 3 mm, longitude is opened for the middle latitude
 * (mid-latitude sheet: minutes of longitude are 3 mm times its cosine; over 60′ of latitude the error of this is under
 * 0.6 % at 25°). A rose about the middle, latitude at both sides as the scale of miles, a check scale below.
 * @param latDeg north positive @param lonDeg east positive
 */
export function plottingSheet({
  latDeg,
  lonDeg,
}: {
  readonly latDeg: number;
  readonly lonDeg: number;
}): string {
  const middle = { lat: nearest(latDeg * 60), lon: nearest(lonDeg * 60) };
  const lonMm = MINUTE_MM * Math.cos((middle.lat / 60) * (Math.PI / 180));
  const [cx, cy] = [WIDTH_MM / 2, HEIGHT_MM / 2];
  const x = (lonMin: number) => cx + (lonMin - middle.lon) * lonMm;
  const y = (latMin: number) => cy - (latMin - middle.lat) * MINUTE_MM;
  const parts: string[] = [];
  for (let m = -30; m <= 30; m++) {
    const at = y(middle.lat + m);
    const long = m % STEP_MIN === 0;
    parts.push(
      long
        ? line(0, at, WIDTH_MM, at)
        : tick(0, at, m % 5 === 0 ? 4 : 2) + tick(WIDTH_MM, at, m % 5 === 0 ? -4 : -2),
    );
    if (long && m > -30)
      parts.push(text(1.5, at - 1, formatLatitude((middle.lat + m) / 60, 0), 'start'));
  }
  const most = Math.floor(cx / lonMm);
  for (let m = -most; m <= most; m++) {
    const at = x(middle.lon + m);
    const long = m % STEP_MIN === 0;
    parts.push(long ? line(at, 0, at, HEIGHT_MM) : down(at, HEIGHT_MM, m % 5 === 0 ? 4 : 2));
    // A label that would run over the frame is left out: its neighbours ten minutes off stand there.
    if (long && at < WIDTH_MM - LABEL_MM)
      parts.push(text(at + 1, HEIGHT_MM - 1.5, formatLongitude((middle.lon + m) / 60, 0), 'start'));
  }
  parts.push(rose(cx, cy), drMark(x(lonDeg * 60), y(latDeg * 60)));
  return (
    `<svg class="sheet" xmlns="http://www.w3.org/2000/svg" width="${WIDTH_MM}mm" height="${HEIGHT_MM + 10}mm" viewBox="0 0 ${WIDTH_MM} ${HEIGHT_MM + 10}" role="img" aria-label="Plotting sheet">` +
    `<rect x="0" y="0" width="${WIDTH_MM}" height="${HEIGHT_MM}" class="frame"/>${parts.join('')}${checkScale()}</svg>`
  );
}

/** Room that the label of a meridian takes. */
const LABEL_MM = 20;

/** The whole 10′ nearest to a figure in minutes. */
const nearest = (minutes: number) => STEP_MIN * Math.round(minutes / STEP_MIN);
const n = (value: number) => String(Number(value.toFixed(3)));
const line = (x1: number, y1: number, x2: number, y2: number, kind = 'grid') =>
  `<line class="${kind}" x1="${n(x1)}" y1="${n(y1)}" x2="${n(x2)}" y2="${n(y2)}"/>`;
const tick = (x: number, y: number, length: number) => line(x, y, x + length, y, 'tick');
const down = (x: number, bottom: number, length: number) =>
  line(x, bottom, x, bottom - length, 'tick') + line(x, 0, x, length, 'tick');
const text = (x: number, y: number, words: string, anchor: string) =>
  `<text x="${n(x)}" y="${n(y)}" text-anchor="${anchor}">${words}</text>`;

/** Degrees of azimuth about the middle, so that a parallel ruler finds every direction. */
function rose(cx: number, cy: number): string {
  const marks: string[] = [];
  for (let deg = 0; deg < 360; deg += 2) {
    const a = (deg * Math.PI) / 180;
    const inner = ROSE_MM - (deg % 30 === 0 ? 4 : deg % 10 === 0 ? 3 : 1.5);
    const [s, c] = [Math.sin(a), Math.cos(a)];
    marks.push(line(cx + inner * s, cy - inner * c, cx + ROSE_MM * s, cy - ROSE_MM * c, 'tick'));
    if (deg % 30 === 0)
      marks.push(
        text(
          cx + (ROSE_MM + 4) * s,
          cy - (ROSE_MM + 4) * c + 1,
          String(deg).padStart(3, '0'),
          'middle',
        ),
      );
  }
  return `<circle class="tick" cx="${n(cx)}" cy="${n(cy)}" r="${ROSE_MM}" fill="none"/>${marks.join('')}`;
}

/** The half circle by which a DR is plotted. */
const drMark = (x: number, y: number) =>
  `<path class="mark" d="M ${n(x - 2)} ${n(y)} A 2 2 0 0 1 ${n(x + 2)} ${n(y)}" fill="none"/><circle class="dot" cx="${n(x)}" cy="${n(y)}" r="0.4"/>${text(x + 3, y + 1, 'DR', 'start')}`;

/** A hundred true millimetres: lay a ruler on it before you plot. */
function checkScale(): string {
  const y = HEIGHT_MM + 6;
  const ticks = Array.from({ length: 11 }, (_, i) => line(i * 10, y - 2, i * 10, y, 'mark')).join(
    '',
  );
  return `${line(0, y, 100, y, 'mark')}${ticks}${text(103, y - 3, '100 mm when printed to scale', 'start')}${text(103, y + 1, '3 mm are 1 nautical mile', 'start')}`;
}
