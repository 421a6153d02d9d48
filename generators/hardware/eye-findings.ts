import { fingerBreadth as finger } from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** A ring's eye, mm. */
export interface Eye {
  readonly fingers: number;
  readonly eyeWidth: number;
  readonly eyeLength: number;
}

/** Whether a finger has room in the eye of a ring. @param inner radius of its round ends, mm @param skin stock, mm */
export function eyeFindings(
  { fingers, eyeWidth, eyeLength }: Eye,
  inner: number,
  skin: number,
  parameters: readonly string[] = ['size', 'eyeWidth', 'eyeLength'],
): readonly Finding[] {
  const across = eyeWidth / fingers;
  const small = Math.min(across, eyeLength);
  const seen = `the eye is ${mm(eyeWidth)} × ${mm(eyeLength)} for ${fingers === 1 ? 'one finger' : 'two fingers'}`;
  if (inner - skin < 1) {
    return [
      stop(
        'eye-closed-by-stock',
        `${seen} and a skin stock of ${mm(skin)} closes it in the casting`,
        `make the eye over ${mm(2 * skin + 2)} or the skin stock smaller`,
        ...parameters.filter((name) => name !== 'size'),
      ),
    ];
  }
  if (small < finger.least) {
    return [
      stop(
        'eye-too-small-for-finger',
        `${seen}; no adult finger goes into less than ${finger.least} mm`,
        `give each finger ${finger.tip} mm at least; ${finger.comfortable} mm is comfortable`,
        ...parameters,
      ),
    ];
  }
  if (small < finger.tip) {
    return [
      warn(
        'eye-tight-for-finger',
        `${seen}: under ${finger.tip} mm it takes the tip of a finger only`,
        `give each finger ${finger.tip} mm at least; ${finger.comfortable} mm is comfortable`,
        ...parameters,
      ),
    ];
  }
  if (fingers === 2 && eyeWidth < finger.two * 0.8) {
    return [
      note(
        'eye-narrow-for-two-fingers',
        `${seen}; two fingers have room in ${finger.two} mm`,
        `make it ${finger.two} mm wide where there is room`,
        'eyeWidth',
      ),
    ];
  }
  return [];
}
