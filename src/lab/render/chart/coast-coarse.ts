import type { Topology } from 'topojson-specification';
import topology from 'world-atlas/land-110m.json';
import { landRings } from './topology-rings.js';

/** Natural Earth 1 : 110 million. */
export const coarseCoast = () => landRings(topology as unknown as Topology);
