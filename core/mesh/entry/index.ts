/** Entry: where metal may enter a part that names no gate of its own. */
export { findGatePlaces, type GateGround, readGateGround } from './find-gate-places.js'; // over the heaviest section, or where asked
export type { GatePlaces, GateSearch } from './gate-search.js'; // what is asked and answered
export { deepest, heavyMiddle, measureSections, type SectionField } from './section-field.js'; // how deep the metal lies
