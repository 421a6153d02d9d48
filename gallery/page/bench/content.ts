/** What the view shows of the bench's state. */

import { alloyColour } from '../../../core/report/render/alloy-colour.js';
import { gatingColour, plasticColour } from '../../../core/report/render/colour.js';
import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Mesh } from '../../../core/solid/types.js';
import type { RunningScene } from '../pair/running-scene.js';
import type { Body, ViewContent } from '../view/content.js';
import { type BenchState, meshesOf, requestOf } from './state.js';

const stockColour = '#c9a27a';

/** Nothing to show yet: no bodies. */
const nothing: ViewContent = { bodies: [] };

/** The chosen gear and its mate, as the scene of the moment has them stand. */
export function pairContent(state: BenchState, scene: RunningScene | null): ViewContent {
  const { mate } = state;
  const gear = meshesOf(state).part;
  const alloy = requestOf(state)?.alloy ?? '';
  const body = (id: 'gear' | 'mate', mesh: Mesh | null | undefined, of: string): readonly Body[] => {
    const standing = scene?.standings[id];
    return mesh
      ? [{ id, mesh, finish: 'metal', colour: alloyColour(of), ...(standing ? { standing } : {}) }]
      : [];
  };
  return {
    bodies: [...body('gear', gear, alloy), ...body('mate', mate?.mesh, mate?.entry.alloy ?? alloy)],
    marks: scene?.marks ?? [],
    rays: scene?.rays ?? [],
  };
}

export function contentOf(state: BenchState): ViewContent {
  if (state.shown === 'plate') return plateContent(state);
  const meshes = meshesOf(state);
  const { casting: name, shown } = state;
  const metal = alloyColour(requestOf(state)?.alloy ?? '');
  const body = (id: string, mesh: Mesh | undefined, look: Omit<Body, 'id' | 'mesh'>): readonly Body[] =>
    mesh ? [{ id: `${name}/${id}`, mesh, ...look }] : [];
  const part = body('part', meshes.part, { finish: 'metal', colour: metal });
  if (shown === 'part')
    return { bodies: part, ...(state.dimensions ? { dimensions: dimensionsOf(state) } : {}) };
  if (shown === 'casting')
    return {
      bodies: [
        ...part,
        ...body('skin', meshes.casting, { finish: 'metal', colour: stockColour, skin: true }),
      ],
    };
  const plastic = { finish: 'plastic', colour: plasticColour.colour } as const;
  if (shown === 'pattern') return { bodies: body('pattern', meshes.pattern, plastic) };
  const field = fieldOf(state);
  const painted = field === undefined ? {} : { painted: true };
  return {
    bodies: [
      ...body('standing', meshes.standing, { ...plastic, ...painted }),
      ...body('gating', meshes.gating, { finish: 'gating', colour: gatingColour.colour, ...painted }),
    ],
    ...(field === undefined ? {} : { field }),
  };
}

/** Sizes stand on the exact part alone. */
const dimensionsOf = ({ made, draft, casting }: BenchState) =>
  made?.version === draft.version
    ? (made.reply.castings.find((c) => c.name === casting)?.dimensions ?? [])
    : [];

function fieldOf({ made, draft, casting, paint }: BenchState) {
  if (paint === 'plain' || made?.version !== draft.version) return undefined;
  return made.reply.frozen.find((f) => f.name === casting)?.[paint];
}

function plateContent({ made, plate }: BenchState): ViewContent {
  const summary = made?.reply.summary;
  const shown = summary?.plates[plate] ?? summary?.plates[0];
  if (!made || !summary || !shown) return nothing;
  const bodies = shown.placements.flatMap((placement): readonly Body[] => {
    const casting = made.reply.castings.find((c) => c.name === placement.name);
    if (!casting) return [];
    const lowest = measureBounds(casting.meshes.gated)?.min[2] ?? 0;
    const standing = { turn: placement.turn, at: [placement.x, placement.y, -lowest] as const };
    const id = `${shown.name}/${placement.name}/${placement.copy}`;
    return [
      { id, mesh: casting.standing, finish: 'plastic', colour: plasticColour.colour, standing },
      { id: `${id}/gating`, mesh: casting.gating, finish: 'gating', colour: gatingColour.colour, standing },
    ];
  });
  const { shape, width, depth, keepOuts } = summary.bed;
  return { bodies, bed: { shape, width, depth, keepOuts } };
}
