/** A made job as the page gets it. */
import type { JobResult } from '../../../core/job/make-job.js';
import type { MadePart } from '../../../core/job/make-part.js';
import type { PartSummary } from '../../../core/job/summary.js';
import { spaceDimensions } from '../../../core/report/drawing/space-dimensions.js';
import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Box } from '../../../core/solid/types.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { FrozenCasting, MadeCasting, SentCasting } from './protocol.js';

/** Numbers made parts as they are met, so that the page need not be sent what it has. */
export class Stamps {
  #of = new WeakMap<MadePart, number>();
  /** What their dimensions are told in. */
  #unit: LengthUnit | undefined;
  #last = 0;
  /** What the page got with the last reply. */
  #sent: ReadonlySet<number> = new Set();

  /** The castings of a result; those of the last call by their stamp alone. */
  send(result: JobResult, unit: LengthUnit): readonly SentCasting[] {
    // The same parts in other units are told anew.
    if (unit !== this.#unit) this.#of = new WeakMap();
    this.#unit = unit;
    const now = new Set<number>();
    const sent = result.summary.parts.map((summary): SentCasting => {
      const made = result.parts.get(summary.name) as MadePart;
      const stamp = this.#of.get(made) ?? ++this.#last;
      this.#of.set(made, stamp);
      now.add(stamp);
      return this.#sent.has(stamp) ? { name: summary.name, stamp } : castingOf(summary, made, stamp, unit);
    });
    this.#sent = now;
    return sent;
  }
}

const castingOf = (summary: PartSummary, made: MadePart, stamp: number, unit: LengthUnit): MadeCasting => ({
  name: summary.name,
  stamp,
  meshes: made.meshes,
  standing: made.standing,
  gating: made.gatingMesh,
  dimensions: spaceDimensions(made.drawing, summary.dimensions, measureBounds(made.meshes.part) as Box, unit),
});

/** What colours the castings, of those that were frozen. */
export const frozenOf = ({ frozen }: JobResult): readonly FrozenCasting[] =>
  [...frozen].flatMap(([name, { volumes }]) => (volumes ? [{ name, ...volumes }] : []));
