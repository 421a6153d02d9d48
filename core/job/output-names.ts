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

export const plateFiles = (name: string) => ({
  stl: `plates/${name}.stl`,
  threeMf: `plates/${name}.3mf`,
  plan: `plates/${name}.svg`,
});
