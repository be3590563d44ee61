import { OutOfRangeError } from '../units/errors.js';
import type { Pressure, Speed, Temperature } from '../units/scalar.js';

/** Air a sextant is used in, with room to spare; outside it an entry is a slip of unit or of the pen. */
export function temperatureInRange(temperature: Temperature): Temperature {
  if (!(temperature.celsius >= -60 && temperature.celsius <= 60))
    throw new OutOfRangeError(
      `an air temperature of ${temperature} is outside −60 °C to 60 °C: is the unit right?`,
    );
  return temperature;
}
export function pressureInRange(pressure: Pressure): Pressure {
  if (!(pressure.hectopascals >= 500 && pressure.hectopascals <= 1090))
    throw new OutOfRangeError(
      `an air pressure of ${pressure} is outside 500 hPa to 1090 hPa: is the unit right?`,
    );
  return pressure;
}
export function speedInRange(speed: Speed): Speed {
  if (!(speed.knots >= 0 && speed.knots <= 600))
    throw new OutOfRangeError(`a speed of ${speed} is outside 0 kn to 600 kn`);
  return speed;
}
