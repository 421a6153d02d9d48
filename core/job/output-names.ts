/** Where each file stands in the output folder, relative to it. */

export const travellerFile = 'traveller.html';
export const summaryFile = 'summary.json';

export const partFiles = (name: string) => ({
  part: `${name}/part.stl`,
  casting: `${name}/casting.stl`,
  pattern: `${name}/pattern.stl`,
  gated: `${name}/gated.stl`,
  gated3mf: `${name}/gated.3mf`,
  preview: `${name}/preview.png`,
  drawing: `${name}/drawing.svg`,
});

/** Of one kind of pattern on a tree of several. */
export const memberFiles = (tree: string, member: string) => {
  const { part, casting, pattern, drawing } = partFiles(`${tree}/${member}`);
  return { part, casting, pattern, drawing };
};

/** Where how it fills and freezes was worked out. */
export const freezeFiles = (name: string) => ({
  freezeSection: `${name}/freeze-section.svg`,
  freezeSurface: `${name}/freeze-surface.svg`,
});

/** Where the job asks for it. */
export const freezeFieldFile = (name: string): string => `${name}/freeze.vtk`;

export const plateFiles = (name: string) => ({
  stl: `plates/${name}.stl`,
  threeMf: `plates/${name}.3mf`,
  plan: `plates/${name}.svg`,
});
