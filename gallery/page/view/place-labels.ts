/** A text that wants a place in the picture, CSS pixels, y down. */
export interface LabelWish {
  readonly width: number;
  readonly height: number;
  /** Middles it may have, the dearest first. */
  readonly places: readonly (readonly [x: number, y: number])[];
}

export interface Frame {
  readonly width: number;
  readonly height: number;
}

/** Between texts, pixels. */
const gap = 3;

/**
 * A place for each text, so that none covers another or leaves the frame: the first that is free; null where none is.
 * Those that come first choose first.
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  frame: Frame,
): readonly (readonly [x: number, y: number] | null)[] {
  const taken: { x: number; y: number; halfWidth: number; halfHeight: number }[] = [];
  return wishes.map(({ width, height, places }) => {
    const [halfWidth, halfHeight] = [width / 2, height / 2];
    const place = places.find(
      ([x, y]) =>
        x >= halfWidth &&
        y >= halfHeight &&
        x <= frame.width - halfWidth &&
        y <= frame.height - halfHeight &&
        taken.every(
          (t) =>
            Math.abs(t.x - x) >= t.halfWidth + halfWidth + gap ||
            Math.abs(t.y - y) >= t.halfHeight + halfHeight + gap,
        ),
    );
    if (!place) return null;
    taken.push({ x: place[0], y: place[1], halfWidth, halfHeight });
    return place;
  });
}
