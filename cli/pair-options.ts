import { jobDefaults } from '../core/job/job-schema.js';
import { asCast, largestBacklash } from '../core/pair/request.js';
import type { OptionRow } from './option-row.js';

/** Options whose values are neither lengths nor plain numbers. */
export const pairTextOptions: readonly OptionRow[] = [
  {
    name: 'backlash',
    group: 'Backlash',
    value: `mm|${asCast}`,
    help: 'Backlash (j), or as-cast for what the casting tolerances ask for where the flanks stay as cast',
    range: `from 0 to ${largestBacklash} mm, or ${asCast}`,
    fallback: 'the least of ISO/TR 10064-2, for dressed flanks',
  },
  {
    name: 'torque',
    group: 'Load',
    value: 'N·m',
    help: 'Torque on gear 1, like 12Nm or 100lbf·in',
    fallback: 'what the teeth allow',
  },
  {
    name: 'power',
    group: 'Load',
    value: 'W',
    help: 'Power through the pair, like 60W or 1/4hp',
    fallback: 'not given',
  },
  {
    name: 'speed',
    group: 'Load',
    value: 'rev/min',
    help: 'Speed of gear 1, turns a minute',
    fallback: 'slow, or the crank’s',
  },
  {
    name: 'alloy',
    group: 'Load',
    value: 'name',
    help: 'Casting alloy: see patternwright list alloys',
    fallback: jobDefaults.alloy,
  },
  {
    name: 'mate-alloy',
    group: 'Load',
    value: 'name',
    help: 'Casting alloy of gear 2',
    fallback: 'as gear 1',
  },
];
