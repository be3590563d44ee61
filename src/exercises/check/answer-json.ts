import { Angle, Instant, Length } from '../../core/units/index.js';

const MOST_DEPTH = 4;

/**
 * Values that cells made, back from JSON: figures of the library (`{ degrees }`, `{ metres }`, `{ utc }`, a working's
 * `{ value, steps }`) become values again; everything else stays plain data. Never throws: what is no figure stays as
 * it is and is refused, line by line, by the check.
 */
export function answerFromJson(json: unknown, depth = 0): unknown {
  if (typeof json !== 'object' || json === null || depth > MOST_DEPTH) return json;
  if (Array.isArray(json)) return json.map((item) => answerFromJson(item, depth + 1));
  const record = json as Record<string, unknown>;
  try {
    if ('steps' in record && 'value' in record) return answerFromJson(record['value'], depth + 1);
    if (typeof record['degrees'] === 'number') return Angle.degrees(record['degrees']);
    if (typeof record['metres'] === 'number') return Length.metres(record['metres']);
    if (typeof record['utc'] === 'string') return Instant.utc(record['utc']);
  } catch {
    return json;
  }
  return Object.fromEntries(
    Object.entries(record).map(([key, value]) => [key, answerFromJson(value, depth + 1)]),
  );
}
