import type { RunningScene } from '../pair/running-scene.js';
import type { Stage } from '../view/stage.js';

/** From a running pair to the view, past all that is drawn anew when the state changes: sixty times a second. */
export class SceneSink {
  stage: Stage | null = null;
  last: RunningScene | null = null;

  take = (scene: RunningScene): void => {
    this.last = scene;
    this.stage?.stand('gear', scene.standings.gear);
    this.stage?.stand('mate', scene.standings.mate);
    this.stage?.setMarks(scene.marks, scene.rays);
  };
}
