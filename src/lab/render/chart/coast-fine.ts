import type { Topology } from 'topojson-specification';
import topology from 'world-atlas/land-50m.json';
import { landRings } from './topology-rings.js';

/** Natural Earth 1 : 50 million; it holds St Helena and Ascension. */
export const fineCoast = () => landRings(topology as unknown as Topology);
