import { leastEdgeRadius } from '../../core/hardware/casting-rules.js';
import { type Finding, note, stop } from '../../core/part/finding.js';
import type { PullState } from './levels.js';
import { ovalSection, sharpestRadius } from './oval-ring.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Most of the ring's thickness that its tab may have: more, and their faces meet too flat for a fillet. */
const mostTab = 0.9;

/** Least fillet over the thinner of tab and rim: half of what the casting rule warns under. */
const leastFilletShare = 1 / 6;

/** What an oval ring needs for its fillets to be true and its edges to fill. */
export function checkOval({ sizes, plan, skin, mating }: PullState): readonly Finding[] {
  if (sizes.section !== 'oval') return [];
  const { thickness, rimWidth, tabThickness, filletRadius, tabWidth } = sizes;
  const findings: Finding[] = [];
  const sharpest = sharpestRadius(ovalSection(sizes, plan));
  if (sharpest < 2 * leastEdgeRadius) {
    findings.push(
      stop(
        'oval-too-flat',
        `an oval ${mm(rimWidth)} wide and ${mm(thickness)} thick is an edge of radius ${mm(sharpest)}`,
        'make rim width and thickness more alike',
        'rimWidth',
        'thickness',
      ),
    );
  }
  if (tabThickness > mostTab * thickness + 1e-9) {
    findings.push(
      stop(
        'tab-thicker-than-ring',
        `a tab ${mm(tabThickness)} thick leaves no step to the oval ring of ${mm(thickness)}`,
        `make the tab ${mm(Math.floor(10 * mostTab * thickness) / 10)} or thinner, or the ring thicker`,
        'tabThickness',
        'thickness',
        'screw',
      ),
    );
  }
  const leastFillet = Math.max(1, leastFilletShare * Math.min(tabThickness, rimWidth));
  if (filletRadius - Math.max(skin, mating) < leastFillet - 0.5) {
    findings.push(
      stop(
        'fillet-too-small',
        `fillets of ${mm(filletRadius)} between a tab ${mm(tabThickness)} thick and its ring are as good as none under the stock`,
        `make the fillet ${mm(Math.ceil(10 * (leastFillet - 0.5 + Math.max(skin, mating))) / 10)} or more`,
        'filletRadius',
      ),
    );
  }
  const most = 0.9 * (plan.inner - skin);
  if (filletRadius > most) {
    findings.push(
      stop(
        'fillet-fills-eye',
        `fillets of ${mm(filletRadius)} do not go into an eye of radius ${mm(plan.inner)}`,
        `make the fillet ${mm(Math.floor(10 * most) / 10)} or less`,
        'filletRadius',
      ),
    );
  }
  const widest = 2 * (plan.halfY + 0.85 * (plan.inner + rimWidth / 2));
  if (tabWidth + 2 * Math.max(0, mating - skin) > widest) {
    findings.push(
      stop(
        'tab-wider-than-rim',
        `the tab is ${mm(tabWidth)} wide; past ${mm(widest)} it has no root in the oval ring`,
        `make the tab ${mm(Math.floor(widest) - 1)} or narrower`,
        'tabWidth',
      ),
    );
  }
  findings.push(
    note(
      'print-support',
      'the oval section and the tab over it print with supports under the show face',
      'or take the bevelled section, which needs none',
      'section',
    ),
  );
  return findings;
}
