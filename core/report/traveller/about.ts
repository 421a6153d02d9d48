import { formatLength } from '../../units/index.js';
import { type Html, html } from '../html.js';
import type { Context } from './context.js';

/** What the sheet is worth and how its numbers are to be read. */
export const about = ({ summary: s, f }: Context): Html => html`<div class="about">
<h3>About these numbers</h3>
<p><b>Computed advice, not a guarantee.</b> The program works from the sizes and settings in the job, published tables and common practice; it has not seen your metal, plaster, kiln or hands. Makers’ datasheets, safety sheets, local codes and the practice of licensed and trained people come before this sheet. Try a new alloy, investment or printer on a small piece first.</p>
<p>Masses come from the volume of the meshes and the alloy’s density at 20 °C (68 °F). Lengths are rounded to 0.01 mm or 0.001 in, masses to whole grams or 0.1 oz (finer for small parts), temperatures to whole degrees; the unrounded numbers are in <b>summary.json</b> (version ${s.schemaVersion}). Shapes keep within ${formatLength(s.tolerance, f.view.lengthUnit)} of the exact form. Ounces and pounds are avoirdupois.</p>
</div>`;
