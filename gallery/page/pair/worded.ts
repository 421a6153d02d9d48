import type { MeshKind } from '../../../core/gear/mesh-backlash.js';
import { told } from '../../../core/pair/told.js';
import type { Finding } from '../../../core/part/finding.js';
import type { LengthUnit } from '../../../core/units/index.js';

/** Findings that speak of the members by their names, in the reader's units. */
export const worded = (
  findings: readonly Finding[],
  unit: LengthUnit,
  mesh: MeshKind,
  names: readonly [string, string],
): readonly Finding[] =>
  findings.map((f) => ({
    ...f,
    message: told(f.message, unit, mesh, names),
    remedy: told(f.remedy, unit, mesh, names),
  }));
