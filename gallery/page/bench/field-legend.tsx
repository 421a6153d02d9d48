import type { FieldVolume } from '../../../core/report/freeze/field-volume.js';

/** What the colours of a painted pattern say. */
export function FieldLegend({ field }: { readonly field: FieldVolume }) {
  const { colours } = field;
  const stops = Array.from({ length: 17 }, (_, i) => {
    const at = 3 * Math.round((i / 16) * 255);
    return `rgb(${colours[at]} ${colours[at + 1]} ${colours[at + 2]})`;
  });
  return (
    <figure class="legend">
      <figcaption>{field.title}</figcaption>
      <div class="ramp" style={{ background: `linear-gradient(to right, ${stops.join(', ')})` }} />
      <div class="ticks">
        {field.ticks.map(({ at, text }) => (
          <span key={text} style={{ insetInlineStart: `${100 * at}%` }}>
            {text}
          </span>
        ))}
      </div>
    </figure>
  );
}
