import { observedAltitude, position, sight } from 'cocked-hat';
import sights from './fixtures/sextant-sights.json';
import type { Check } from './compare.js';

const sourceOf = (id: string) => sights.entries.find((e) => e.id === id)?.source ?? 'missing';

/** Whole sights in print, from the reading to the observed altitude. */
export function sightChecks(): Check[] {
  return [
    {
      group: 'Sights',
      subject: 'Sun, lower limb, 1984',
      quantity: 'observed altitude',
      unit: '′',
      tolerance: 0.2,
      reason: 'the printed one is worked from tables rounded to 0.1′, the sum of four',
      source: sourceOf('navedtra-sunline-1984'),
      expected: 1,
      *cases() {
        const s = sight({
          body: 'Sun',
          limb: 'lower',
          reading: '25°46.9′',
          time: '1984-03-31 09:15:38 UTC',
          eyeHeight: '50 ft',
          indexError: '1.0′ on the arc',
          dr: position('36°32.8′ N', '18°10.0′ W'),
        });
        yield {
          label: '1984-03-31 09:15:38',
          ours: observedAltitude(s).value.arcminutes,
          theirs: 25 * 60 + 53.3,
        };
      },
    },
    {
      group: 'Sights',
      subject: 'Sun, lower limb, 1870',
      quantity: 'observed altitude',
      unit: '′',
      tolerance: 0.2,
      reason: 'tables of 1871, each rounded to 1″–5″, and another refraction',
      source: sourceOf('time-sight-1870-mar'),
      expected: 1,
      *cases() {
        // Printed: 20d 20h46m24s, counted from noon, so 21 March 08:46:24 from midnight.
        const s = sight({
          body: 'Sun',
          limb: 'lower',
          reading: '10°55′',
          time: '1870-03-21 08:46:24 UTC',
          eyeHeight: '20 ft',
          indexError: '4′50″ on the arc',
        });
        yield {
          label: '1870-03-21 08:46:24',
          ours: observedAltitude(s).value.arcminutes,
          theirs: 10 * 60 + 57 + 10 / 60,
        };
      },
    },
  ];
}
