import { type Finding, note } from '../part/finding.js';
import { measureOverhang } from '../plate/overhang.js';
import type { Mesh } from '../solid/types.js';

/** Less than this prints over thin air, as a small hole's roof does, mm² (common practice, no source). */
const bridged = 25;

/** Says where the part itself needs support; the gating never does. */
export function supportFindings(pattern: Mesh): readonly Finding[] {
  const { area, from, to } = measureOverhang(pattern);
  if (area <= bridged) return [];
  return [
    note(
      'needs-support',
      `${(area / 100).toFixed(1)} cm² of the pattern, ${from.toFixed(1)} to ${to.toFixed(1)} mm above the bed, faces down flatter than 45°.`,
      'Let the slicer support it there, and clear every scrap of support away before investing.',
    ),
  ];
}
