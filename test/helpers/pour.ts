import type { PourRecord } from '../../core/log/record.js';

/** A record with what a test cares about. */
export const pour = (changes: Partial<PourRecord> = {}): PourRecord => ({
  id: 'test-0000',
  date: '2026-05-30',
  alloy: 'tin-bronze',
  investment: 'gypsum-bonded',
  settings: {},
  sizes: [],
  faults: [],
  notes: '',
  ...changes,
});
