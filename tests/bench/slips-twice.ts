import {
  altitudeInputOf,
  Angle,
  Duration,
  findSlips,
  sextantReadingFor,
  sight,
  sightPlace,
  type BodyName,
  type Instant,
  type Random,
} from 'cocked-hat';
import { altAz, FIELDS, SCATTER_ARCMIN, SHARED_ARCMIN, sky, stars } from './slips-readings.js';

const OTHERS = 3;
const [SOON_S, LATER_S] = [180, 2400];

export interface TwiceRow {
  readonly trials: number;
  /** Rounds in which the star was named that was truly observed, in both sights. */
  readonly first: number;
  /** Rounds with the right names called clean. */
  readonly clean: number;
}

/** Rounds of three stars and a fourth observed twice, 40 minutes apart, under its own name and under that of any star. */
export function measureTwice(trials: number, makeRandom: (seed: number) => Random): TwiceRow {
  let [first, clean] = [0, 0];
  for (let i = 0; i < trials; i++) {
    const rng = makeRandom(15_485_863 + 6997 * i);
    const { place, start, bodies } = sky(rng);
    const [body, ...others] = bodies.slice(0, OTHERS + 1) as [BodyName, ...BodyName[]];
    const shared = SHARED_ARCMIN * rng.normal();
    const taken = (of: BodyName, at: Instant) => {
      const fields = { ...FIELDS, body: of, time: at, dr: place };
      const plain = sight({ ...fields, reading: Angle.zero });
      const error = shared + SCATTER_ARCMIN * rng.normal();
      const altDeg = altAz(place, of, at).altitude.degrees + error / 60;
      const arc = sextantReadingFor(altDeg, altitudeInputOf(plain, sightPlace(plain))) * 60;
      return { ...fields, reading: Angle.arcminutes(Math.round(arc * 10) / 10) };
    };
    const after = (s: number) => start.plus(Duration.seconds(s));
    const rest = others.map((other, k) => sight(taken(other, after(SOON_S * (k + 1)))));
    const twice = [0, LATER_S].map((s) => taken(body, after(s)));
    const search = (noted: BodyName) =>
      findSlips([...twice.map((fields) => sight({ ...fields, body: noted })), ...rest], {
        dr: place,
      });
    let noted = body;
    while (bodies.includes(noted)) noted = stars[rng.below(stars.length)] as BodyName;
    if (search(noted).first.detail === `${body}, in both sights`) first += 1;
    if (search(body).clean) clean += 1;
  }
  return { trials, first, clean };
}
