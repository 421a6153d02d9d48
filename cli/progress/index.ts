/** How far a run is, on a terminal. */
export { byTheClock, tellAllowedTime } from './allowed-time.js';
export type { ProgressEvent, StageKind } from './events.js';
export { noProgress, type ProgressBar, type ProgressOptions, startProgress } from './progress.js';
export { progressOn } from './terminal.js';
