/** The mesh that is searched: points of three doubles each, triangles of three vertex numbers each. */
export let points: usize = 0;
export let pointsEnd: usize = 0;
let corners: usize = 0;

export function takeMesh(atPoints: usize, endOfPoints: usize, atCorners: usize): void {
  points = atPoints;
  pointsEnd = endOfPoints;
  corners = atCorners;
}

/** Where the point of a triangle's corner stands. */
export function pointOf(triangle: u32, corner: u32): usize {
  return points + 24 * <usize>load<u32>(corners + 12 * <usize>triangle + 4 * <usize>corner);
}
