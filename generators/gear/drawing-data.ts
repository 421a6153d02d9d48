import { basicRackProfiles } from '../../core/gear/basic-rack.js';
import type { HelixStretch } from '../../core/gear/helix.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { DataNote } from '../../core/part/drawing-notes.js';
import type { BodySizes } from './body-sizes.js';
import type { ToothParameters } from './tooth-spec.js';

const plain = (value: number, digits = 4): string => String(Number(value.toFixed(digits)));

/** The basic rack by its name in ISO 53 where nothing of it was changed, else by its factors. */
function rackRows(
  p: Pick<ToothParameters, 'rackProfile'>,
  spec: Omit<GearSpec, 'teeth' | 'profileShift'>,
): readonly DataNote[] {
  const standard = basicRackProfiles[p.rackProfile];
  const same =
    Math.abs(spec.normalPressureAngle - standard.normalPressureAngle) < 1e-9 &&
    (['addendum', 'dedendum', 'rootRadius'] as const).every(
      (key) => Math.abs(spec[key] - standard[key]) < 1e-9,
    );
  return same
    ? [{ name: 'basic rack', value: `ISO 53, ${p.rackProfile}` }]
    : [
        { symbol: 'h_aP*', name: 'addendum factor', value: plain(spec.addendum) },
        { symbol: 'h_fP*', name: 'dedendum factor', value: plain(spec.dedendum) },
        { symbol: 'ρ_fP*', name: 'root radius factor', value: plain(spec.rootRadius) },
      ];
}

/** Module, tooth number, basic rack and pressure angle, in the order of ISO 1340 (from memory). */
export function toothRows(
  p: Pick<ToothParameters, 'rackProfile' | 'diametralPitch'> & { readonly teeth: number },
  spec: Omit<GearSpec, 'teeth' | 'profileShift'>,
): readonly DataNote[] {
  return [
    { symbol: 'm_n', name: 'normal module', value: `${plain(spec.normalModule)} mm` },
    ...(p.diametralPitch === undefined
      ? []
      : [{ symbol: 'P_n', name: 'normal diametral pitch', value: `${plain(p.diametralPitch)} /in` }]),
    { symbol: 'z', name: 'tooth number', value: String(p.teeth) },
    ...rackRows(p, spec),
    { symbol: 'α_n', name: 'normal pressure angle', value: spec.normalPressureAngle, unit: 'rad' },
  ];
}

export const handOf = (stretch: HelixStretch): 'left' | 'right' =>
  stretch.turn(stretch.z1) > stretch.turn(stretch.z0) ? 'right' : 'left';

export function helixRows(spec: Pick<GearSpec, 'helixAngle'>, hand: string): readonly DataNote[] {
  return spec.helixAngle === 0
    ? [{ symbol: 'β', name: 'helix angle', value: '0° (spur)' }]
    : [
        { symbol: 'β', name: 'helix angle', value: spec.helixAngle, unit: 'rad' },
        { name: 'hand', value: hand },
      ];
}

/** What is taken off or rounded, where it is. */
export const easingRows = (
  spec: Omit<GearSpec, 'teeth' | 'profileShift'>,
  rounding: number,
): readonly DataNote[] => [
  ...(spec.thinning === 0
    ? []
    : [{ name: 'thinning of the normal thickness for backlash', value: spec.thinning, unit: 'mm' as const }]),
  ...(spec.tipShortening
    ? [{ name: 'tip shortening, radial', value: spec.tipShortening, unit: 'mm' as const }]
    : []),
  ...(rounding > 0 ? [{ name: 'rounding of the tip corners', value: rounding, unit: 'mm' as const }] : []),
];

interface GearFacts {
  readonly parameters: ToothParameters;
  readonly spec: GearSpec;
  readonly form: { readonly tipRounding: number };
  readonly sizes: BodySizes;
  readonly run: readonly (readonly HelixStretch[])[];
}

export function gearRows({ parameters, spec, form, sizes, run }: GearFacts): readonly DataNote[] {
  const all = run.flat();
  const [lower, upper] = [handOf(all[0] as HelixStretch), handOf(all.at(-1) as HelixStretch)];
  return [
    ...toothRows(parameters, spec),
    ...helixRows(spec, lower === upper ? `${lower}-hand` : `lower half ${lower}, upper ${upper}`),
    { symbol: 'x', name: 'profile shift coefficient', value: plain(spec.profileShift) },
    { symbol: 'h', name: 'tooth depth', value: sizes.tipRadius - sizes.rootRadius, unit: 'mm' },
    ...easingRows(spec, form.tipRounding),
  ];
}

/** Sizes of the body that no line of the views is for. */
export function bodyRows({ sizes }: Pick<GearFacts, 'sizes'>): readonly DataNote[] {
  const { web, openings, hubFillet } = sizes;
  const { windows } = openings;
  const raised = sizes.upperEnd > sizes.upperFace || sizes.lowerEnd < sizes.lowerFace;
  const size = (name: string, value: number): DataNote => ({ name, value, unit: 'mm' });
  return [
    ...(windows
      ? [
          { name: 'spokes', value: String(windows.spokes) },
          size('spoke width at the hub', 2 * windows.halfWidthInner),
          size('spoke width at the rim', 2 * windows.halfWidthOuter),
          size('corner radius of the openings', windows.corner),
        ]
      : []),
    ...(web && web.fillet > 0 ? [size('fillet radius at the web', web.fillet)] : []),
    ...(!web && raised && hubFillet > 0 ? [size('fillet radius at the hub', hubFillet)] : []),
  ];
}
