import type { Finding } from '../../part/finding.js';
import { type ContactSpan, internalContact, lineContact } from '../contact.js';
import { externalFlankTable, internalFlankTable } from '../flank-table.js';
import { gearGeometry } from '../gear-geometry.js';
import type { HelixStretch } from '../helix.js';
import { internalForm, usualCutterTeeth } from '../internal-form.js';
import { type Mesh, meshBacklash, meshPitchDiameter, meshPressureAngle } from '../mesh-backlash.js';
import { type RackForm, rackForm } from '../rack-form.js';
import { rackContact } from '../rack-pair.js';
import { type ToothForm, toothForm } from '../tooth-form.js';

/**
 * A pair as it turns. Its frame: the gear's axis (the pinion's in a ring or on a rack) on the origin, the line of centres
 * along +X through the pitch point, the mate's axis at (a, 0), a ring's at (−a, 0), a rack's datum line at x = a, moving
 * along +Y. Both members stand as they are built: a tooth centre on +X at z = 0, at the apex plane of a double helix; a
 * ring a space there; a rack the end of a pitch on x = 0, its teeth up.
 */
export interface RunningPair {
  readonly mesh: Mesh;
  /** Exact transverse sections as made; of a ring the space, as if it were a tooth. */
  readonly gearForm: ToothForm;
  readonly mateForm: ToothForm | RackForm;
  /** α_wt, rad. */
  readonly pressureAngle: number;
  /** r_b1 and ψ_1 of the gear: mm, rad. */
  readonly baseRadius: number;
  readonly baseHalfAngle: number;
  /** Working pitch radius of the gear, mm. */
  readonly pitchRadius: number;
  /** p_bt, mm. */
  readonly basePitch: number;
  /** Where flanks touch, as ρ₁: A to E, mm. */
  readonly path: ContactSpan;
  /** j_wt, mm. */
  readonly backlash: number;
  /** Toothed lengths of the gear along its axis and how its section turns over them. */
  readonly run: readonly HelixStretch[];
}

export interface RunningOptions {
  readonly run: readonly HelixStretch[];
  /** Tip roundings as made, mm. */
  readonly tipRounding?: readonly [gear: number, mate: number];
  /** Of the cutter that shapes a ring. */
  readonly cutterTeeth?: number;
}

export type RunningResult =
  | { readonly ok: true; readonly pair: RunningPair }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Makes a mesh ready to turn. Refuses teeth that cannot be; RangeError where nothing meshes at the distance. */
export function runningPair(mesh: Mesh, options: RunningOptions): RunningResult {
  const [roundGear, roundMate] = options.tipRounding ?? [0, 0];
  const gear = toothForm(mesh.gear, { tipRounding: roundGear });
  if (!gear.ok) return gear;
  const mate = mateForm(mesh, roundMate, options.cutterTeeth);
  if (!mate.ok) return mate;
  const pressureAngle = meshPressureAngle(mesh);
  const table = externalFlankTable(gear.form);
  const path =
    'pitch' in mate.form
      ? rackContact(mesh.gear, table, mate.form, mesh.distance)
      : mesh.kind === 'internal'
        ? internalContact(table, internalFlankTable(mate.form), mesh.distance, pressureAngle)
        : lineContact(table, externalFlankTable(mate.form), mesh.distance, pressureAngle);
  return {
    ok: true,
    pair: {
      mesh,
      gearForm: gear.form,
      mateForm: mate.form,
      pressureAngle,
      baseRadius: table.baseRadius,
      baseHalfAngle: table.baseHalfAngle,
      pitchRadius: meshPitchDiameter(mesh) / 2,
      basePitch: gearGeometry(mesh.gear).transverseBasePitch,
      path: { from: path.from, to: path.to },
      backlash: meshBacklash(mesh).circumferential,
      run: options.run,
    },
  };
}

function mateForm(mesh: Mesh, tipRounding: number, cutterTeeth: number | undefined) {
  if (mesh.kind === 'rack') return rackForm(mesh.mate, { tipRounding });
  if (mesh.kind === 'external') return toothForm(mesh.mate, { tipRounding });
  const shaped = internalForm(mesh.mate, cutterTeeth ?? usualCutterTeeth(mesh.mate.teeth));
  return shaped.ok ? { ok: true as const, form: shaped.space } : shaped;
}

/** Turn of the gear's section at a height, rad; where there are no teeth, that of the nearest. */
export function turnAt({ run }: RunningPair, z: number): number {
  const off = ({ z0, z1 }: HelixStretch): number => Math.max(z0 - z, z - z1, 0);
  const nearest = run.reduce((best, stretch) => (off(stretch) < off(best) ? stretch : best));
  return nearest.turn(Math.min(nearest.z1, Math.max(nearest.z0, z)));
}
