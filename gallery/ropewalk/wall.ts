/** The finished pieces on the ropewalk's wall, and how each is hung there. The ropewalk is invented. */

/** How a casting lies in the picture: turned about x, then y, then z, degrees. */
export interface Pose {
  readonly turn?: readonly [number, number, number];
  /** mm; in a row beside the others, on the ground, when left out. */
  readonly at?: readonly [number, number, number];
}

export interface HungPiece {
  readonly job: 'job.yaml' | 'shed.yaml';
  /** Of the entry in that job. */
  readonly name: string;
  readonly title: string;
  /** One sentence: what it does in the ropewalk. */
  readonly caption: string;
  /** Looked at from here, degrees: from the front is −90, above the horizon. */
  readonly look?: { readonly azimuth: number; readonly elevation: number };
  /** By casting: `''` for a part that is one. */
  readonly poses?: Readonly<Record<string, Pose>>;
}

export const wall: readonly HungPiece[] = [
  {
    job: 'job.yaml',
    name: 'main-wheel',
    title: 'Main wheel',
    caption: 'The cranked wheel of the rope-laying machine: it turns three strand pinions at once.',
  },
  {
    job: 'job.yaml',
    name: 'strand-pinion',
    title: 'Strand pinion',
    caption: 'One of three round the main wheel; each twists a strand.',
  },
  {
    job: 'job.yaml',
    name: 'layer-top-gear',
    title: 'Gear of the layer’s top',
    caption: 'Turns the top that keeps the strands apart until they close into rope.',
  },
  {
    job: 'job.yaml',
    name: 'tension-pinion',
    title: 'Tension pinion',
    caption: 'Lets the tail carriage in along its rack, tooth by tooth, as the rope shortens.',
  },
  {
    job: 'shed.yaml',
    name: 'tension-rack',
    title: 'Tension rack',
    caption: 'Lies under the tail carriage and runs with the tension pinion.',
    look: { azimuth: -50, elevation: 30 },
    poses: { '': { turn: [90, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'winch-ring',
    title: 'Ring of the slip’s winch',
    caption: 'Toothed inside and made fast in the drum that hauls the skiffs up the slip.',
  },
  {
    job: 'shed.yaml',
    name: 'winch-pinion',
    title: 'Winch pinion',
    caption: 'Sits on the crank of the slip’s winch and turns the drum from within.',
  },
  {
    job: 'job.yaml',
    name: 'sail-locker-pull',
    title: 'Sail locker pull',
    caption: 'Two fingers lift the lid of the sail locker by it.',
  },
  {
    job: 'job.yaml',
    name: 'tool-drawer-pull',
    title: 'Tool drawer pull',
    caption: 'A small pull for the drawers where fids and mallets lie.',
  },
  {
    job: 'job.yaml',
    name: 'loft-hatch-pull',
    title: 'Loft hatch pull',
    caption: 'A ring that folds into its plate, so that nobody trips over the hatch.',
    look: { azimuth: -128, elevation: 34 },
    // Half open on its pin.
    poses: {
      ring: { turn: [0, -50, 0], at: [27.37, 0, 36.66] },
      plate: { at: [0, 0, 0] },
      pin: { turn: [90, 0, 0], at: [0, 16.75, 10.67] },
    },
  },
  {
    job: 'shed.yaml',
    name: 'boathouse-pull',
    title: 'Boathouse pull',
    caption: 'A bow for a gloved hand on the heavy doors by the water.',
    poses: { '': { turn: [180, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'store-door-pull',
    title: 'Store door pull',
    caption: 'Let into the sliding doors of the pattern store, where nothing may stand out.',
  },
  {
    job: 'shed.yaml',
    name: 'paint-cupboard-knob',
    title: 'Paint cupboard knob',
    caption: 'A plain knob for the cupboard of paint and tar.',
    look: { azimuth: -58, elevation: 28 },
    poses: { '': { turn: [180, 0, 0] } },
  },
  {
    job: 'job.yaml',
    name: 'tar-locker-hinge',
    title: 'Tar locker hinge',
    caption: 'Two leaves on a bronze pin carry the lid of the tar locker.',
    // Laid open: the second leaf lies on the other side of the pin's axis, which is Y.
    poses: { 'outer-leaf': { at: [0, 0, 0] }, 'inner-leaf': { turn: [0, 0, 180], at: [0, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'shed-door-hinge',
    title: 'Shed door hinge',
    caption: 'A long strap and a plate; two of them carry the door of the hemp shed.',
    look: { azimuth: -38, elevation: 36 },
    poses: { strap: { at: [0, 0, 0] }, plate: { turn: [0, 0, 180], at: [0, 0, 0] } },
  },
  {
    job: 'job.yaml',
    name: 'skiff-cleat',
    title: 'Skiff cleat',
    caption: 'Holds the skiff’s painter, belayed in figures of eight.',
    poses: { '': { turn: [180, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'sheet-jam-cleat',
    title: 'Sheet jam cleat',
    caption: 'One turn of the sheet, pulled into its throat, holds by itself.',
    look: { azimuth: -50, elevation: 30 },
    poses: { '': { turn: [90, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'mooring-eye',
    title: 'Mooring eye',
    caption: 'Bolted through the skiff’s thwart for the line that moors her.',
    poses: { '': { turn: [180, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'bow-fairlead',
    title: 'Bow fairlead',
    caption: 'Leads the mooring line over the bow; it is dropped in from above.',
    poses: { '': { turn: [180, 0, 0] } },
  },
  {
    job: 'shed.yaml',
    name: 'skiff-rudder',
    title: 'Rudder hangings',
    caption: 'Pintle and gudgeon: the skiff’s rudder turns on them, and lifts off on the beach.',
    look: { azimuth: -52, elevation: 26 },
    // The pintle over the gudgeon that it is let down into.
    poses: { pintle: { turn: [180, 0, 0], at: [0, 0, 50] }, gudgeon: { turn: [0, 0, 180], at: [0, 0, 0] } },
  },
];
