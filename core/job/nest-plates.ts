import { massOf, type Plastic } from '../foundry/material.js';
import { type Finding, stop } from '../part/finding.js';
import { defaultGap, nest } from '../plate/nest.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box } from '../solid/types.js';
import type { Job } from './job.js';
import type { RefusedPart } from './left-out.js';
import type { MadePart } from './make-part.js';
import { plateFiles } from './output-names.js';
import type { PlateSummary } from './summary.js';
import { mouldsFor } from './tree.js';

/**
 * The job's plates: every copy of every gated pattern on as many beds as needed. Parts whose patterns fit on none come
 * back refused, with by how much.
 */
export function nestPlates(
  job: Job,
  made: readonly MadePart[],
  plastic: Plastic,
): {
  plates: readonly PlateSummary[];
  refused: readonly RefusedPart[];
  findings: readonly Finding[];
} {
  const items = made.flatMap((m) => {
    const { min, max } = measureBounds(m.meshes.gated) as Box;
    return Array.from({ length: mouldsFor(m.request) }, (_, i) => ({
      name: m.request.name,
      copy: i + 1,
      outline: m.silhouette,
      height: max[2] - min[2],
    }));
  });
  // The margin is kept between patterns too; a job without one still keeps what a nozzle needs.
  const { plates, refused } = nest(items, { ...job.bed, gap: Math.max(job.bed.margin, defaultGap) });
  const byName = new Map(made.map((m) => [m.request.name, m]));
  return {
    plates: plates.map((placements, i) => {
      const on = placements.map((p) => (byName.get(p.name) as MadePart).facts.gated);
      const name = `plate-${i + 1}`;
      return {
        name,
        placements,
        height: Math.max(...on.map((f) => f.size[2])),
        plastic: massOf(
          on.reduce((sum, f) => sum + f.volume, 0),
          plastic,
        ),
        files: plateFiles(name),
      };
    }),
    refused: refused.map(({ name, reason }) => ({
      name,
      findings: [stop('does-not-fit-bed', reason, 'Use a larger bed or a smaller part.', 'bed')],
    })),
    findings: [],
  };
}
