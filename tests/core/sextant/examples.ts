import { position, sight, type AltitudeInput, type Sight, type SightFields } from 'cocked-hat';

/** An invented forenoon Sun sight of the yawl Quillfeather. */
export const forenoon: SightFields = {
  body: 'Sun',
  limb: 'lower',
  reading: '41°18.6′',
  time: '2027-05-11 09:42:17 UTC',
  eyeHeight: '2.6 m',
  indexError: '1.4′ off the arc',
  observer: 'A',
  dr: position('19°31′ S', '001°12′ W'),
  course: '312°',
  speed: '5.2 kn',
};

/** The fields without some of them. */
export function without<K extends keyof SightFields>(
  fields: SightFields,
  ...keys: K[]
): Omit<SightFields, K> {
  const left = { ...fields };
  for (const key of keys) delete left[key];
  return left;
}

export const sun = (changes: Partial<SightFields> = {}): Sight =>
  sight({ ...forenoon, ...changes });

/** The same for another body: no limb unless given. */
export function of(body: SightFields['body'], changes: Partial<SightFields> = {}): Sight {
  return sight({ ...without(forenoon, 'limb'), body, ...changes });
}

export const plainInput: AltitudeInput = {
  readingDeg: 40,
  indexErrorArcmin: -1.4,
  instrumentArcmin: 0.2,
  horizon: 'natural',
  eyeHeightM: 2.6,
  distanceM: NaN,
  temperatureC: 21,
  pressureHpa: 1016,
  refractionModel: 'formula above 10°',
  limb: -1,
  sdArcmin: 15.8,
  hpArcmin: 0.15,
  moon: false,
  latDeg: NaN,
  azimuthDeg: NaN,
  phaseArcmin: 0,
};
