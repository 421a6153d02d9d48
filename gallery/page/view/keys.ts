import type { Viewpoint } from './viewpoint.js';

/** What the keys do, for the reader. */
export const keyHelp =
  'Drag to turn, Shift and drag to move, wheel or pinch to zoom. Keys: arrows turn, Shift and arrows move, plus and minus zoom, 0 or F shows all.';

const turnStep = Math.PI / 24;
const panStep = 40;
const zoomStep = 1.2;

const arrows: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Whether the key was one of the view's, and was followed. */
export function followKey(event: KeyboardEvent, viewpoint: Viewpoint, showAll: () => void): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const arrow = arrows[event.key];
  if (arrow) {
    const [right, up] = arrow;
    // The piece goes the way of the arrow.
    if (event.shiftKey) viewpoint.pan(-right * panStep, -up * panStep);
    else viewpoint.turn(-right * turnStep, -up * turnStep);
    return true;
  }
  if (event.key === '+' || event.key === '=') viewpoint.zoom(1 / zoomStep);
  else if (event.key === '-' || event.key === '_') viewpoint.zoom(zoomStep);
  else if (event.key === '0' || event.key === 'f' || event.key === 'F') showAll();
  else return false;
  return true;
}
