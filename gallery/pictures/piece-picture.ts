import { alloyColour, renderPreview, type View } from '../../core/report/render/index.js';
import { radians } from '../../core/units/index.js';
import type { HungPiece } from '../ropewalk/wall.js';
import type { FinishedCasting } from './finished-castings.js';
import { layOut } from './lay-out.js';

/** Pixels. */
const width = 800;
const height = 600;
/** Warm paper: bright on a dark page, a shade on a white one. */
const paper = '#f2ece0';

const usualLook = { azimuth: -58, elevation: 36 };

const viewOf = ({ azimuth, elevation }: { azimuth: number; elevation: number }): View => ({
  azimuth: radians(azimuth),
  elevation: radians(elevation),
});

/** The finished piece on warm paper in the colour of its metal, PNG bytes. */
export function piecePicture(piece: HungPiece, castings: readonly FinishedCasting[]): Uint8Array {
  const [first] = castings;
  if (!first) throw new Error(`${piece.name}: nothing to draw`);
  const mesh = layOut(
    castings.map((casting) => ({ mesh: casting.mesh, pose: piece.poses?.[casting.piece] ?? {} })),
  );
  return renderPreview(mesh, {
    width,
    height,
    supersample: 3,
    background: paper,
    view: viewOf(piece.look ?? usualLook),
    colour: { colour: alloyColour(first.alloy), finish: 'metal' },
  });
}
