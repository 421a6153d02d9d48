import { PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Box, Vec3 } from '../../../core/solid/types.js';
import {
  type Bearing,
  bearings,
  frameAll,
  halfDiagonal,
  middle,
  type Side,
  steepest,
  towardsReader,
  turnBetween,
} from './frame.js';

/** A long lens: sizes near and far read alike, and there is still some depth. Upright, degrees. */
const lens = 15;
/** The piece fills this share of the picture. */
const fill = 0.86;
/** A turn to another side, ms. */
const turnTime = 260;

interface Turn {
  readonly from: { readonly bearing: Bearing; readonly target: Vector3; readonly distance: number };
  readonly to: { readonly bearing: Bearing; readonly target: Vector3; readonly distance: number };
  readonly start: number;
}

/** Where the reader stands: the camera, what moves it, and what it must hold in view. */
export class Viewpoint {
  readonly camera = new PerspectiveCamera(lens, 1, 1, 1000);
  readonly #controls: OrbitControls;
  #turn: Turn | null = null;
  #height = 1;

  /**
   * @param moved the camera stands elsewhere
   * @param calm whether turns are made at once
   */
  constructor(
    element: HTMLElement,
    private readonly moved: () => void,
    private readonly calm: () => boolean,
  ) {
    this.camera.up.set(0, 0, 1);
    this.camera.position.set(...towardsReader(bearings.iso)).multiplyScalar(100);
    this.#controls = new OrbitControls(this.camera, element);
    this.#controls.enableDamping = false;
    this.#controls.zoomToCursor = true;
    this.#controls.addEventListener('change', this.moved);
    this.#controls.addEventListener('start', this.#stop);
  }

  resize(width: number, height: number): void {
    this.camera.fov = lens;
    this.camera.aspect = width / height;
    this.#height = height;
    this.camera.updateProjectionMatrix();
  }

  /** For a picture of other proportions, until the next `resize`: nothing that is seen is cut off at its sides. */
  widen(aspect: number): void {
    const half = Math.tan((lens * Math.PI) / 360) * Math.max(1, this.camera.aspect / aspect);
    this.camera.fov = (Math.atan(half) * 360) / Math.PI;
    this.camera.aspect = aspect;
    this.camera.updateProjectionMatrix();
  }

  get isTurning(): boolean {
    return this.#turn !== null;
  }

  get bearing(): Bearing {
    const d = this.camera.position.clone().sub(this.#controls.target).normalize();
    return { azimuth: Math.atan2(d.y, d.x), elevation: Math.asin(Math.max(-1, Math.min(1, d.z))) };
  }

  /** mm a CSS pixel covers at the target. */
  get millimetresPerPixel(): number {
    const distance = this.camera.position.distanceTo(this.#controls.target);
    return (2 * distance * Math.tan((lens * Math.PI) / 360)) / this.#height;
  }

  /** All the points in view, from where the reader stands or from a side. */
  fit(points: readonly ArrayLike<number>[], from?: Side, atOnce = false): void {
    const bearing = from ? bearings[from] : this.#turn ? this.#turn.to.bearing : this.bearing;
    const tan = Math.tan((lens * Math.PI) / 360) * fill;
    const { target, distance } = frameAll(points, towardsReader(bearing), tan * this.camera.aspect, tan);
    this.#go(bearing, new Vector3(...target), distance, atOnce);
  }

  /** Turns about what is looked at, radians. */
  turn(azimuth: number, elevation: number): void {
    this.#stop();
    const { azimuth: a, elevation: e } = this.bearing;
    this.#stand(
      { azimuth: a + azimuth, elevation: Math.max(-steepest, Math.min(steepest, e + elevation)) },
      this.#controls.target,
      this.camera.position.distanceTo(this.#controls.target),
    );
  }

  /** Moves sideways and upwards, CSS pixels. */
  pan(right: number, up: number): void {
    this.#stop();
    const scale = this.millimetresPerPixel;
    const by = new Vector3()
      .setFromMatrixColumn(this.camera.matrix, 0)
      .multiplyScalar(right * scale)
      .add(new Vector3().setFromMatrixColumn(this.camera.matrix, 1).multiplyScalar(up * scale));
    this.#controls.target.add(by);
    this.camera.position.add(by);
    this.moved();
  }

  /** Nearer for a factor below 1. */
  zoom(factor: number): void {
    this.#stop();
    const { target, minDistance, maxDistance } = this.#controls;
    const arm = this.camera.position.clone().sub(target);
    arm.setLength(Math.max(minDistance, Math.min(maxDistance, arm.length() * factor)));
    this.camera.position.copy(target).add(arm);
    this.moved();
  }

  /** Goes on with a turn; the camera's depths are those that hold the box. */
  step(now: number, box: Box | null): void {
    const turn = this.#turn;
    if (turn) {
      const t = Math.max(0, Math.min(1, (now - turn.start) / turnTime));
      const eased = t * t * (3 - 2 * t);
      const { from, to } = turn;
      this.#stand(
        {
          azimuth: from.bearing.azimuth + eased * turnBetween(from.bearing.azimuth, to.bearing.azimuth),
          elevation: from.bearing.elevation + eased * (to.bearing.elevation - from.bearing.elevation),
        },
        from.target.clone().lerp(to.target, eased),
        from.distance * (to.distance / from.distance) ** eased,
      );
      if (t === 1) this.#turn = null;
    }
    if (!box) return;
    const reach = halfDiagonal(box) * 1.3 + 1;
    const centre = new Vector3(middle(box, 0), middle(box, 1), middle(box, 2));
    const depth = centre.sub(this.camera.position).dot(this.camera.getWorldDirection(new Vector3()));
    this.camera.far = Math.max(depth + reach, 2);
    this.camera.near = Math.max(depth - reach, this.camera.far / 2000);
    this.camera.updateProjectionMatrix();
    this.#controls.minDistance = reach * 0.04;
    this.#controls.maxDistance = reach * 40;
  }

  dispose(): void {
    this.#controls.dispose();
  }

  #stop = (): void => {
    this.#turn = null;
  };

  #go(bearing: Bearing, target: Vector3, distance: number, atOnce: boolean): void {
    if (atOnce || this.calm()) {
      this.#turn = null;
      this.#stand(bearing, target, distance);
      return;
    }
    const from = {
      bearing: this.bearing,
      target: this.#controls.target.clone(),
      distance: this.camera.position.distanceTo(this.#controls.target),
    };
    this.#turn = { from, to: { bearing, target, distance }, start: performance.now() };
    this.moved();
  }

  #stand(bearing: Bearing, target: Vector3, distance: number): void {
    const towards: Vec3 = towardsReader(bearing);
    this.#controls.target.copy(target);
    this.camera.position
      .set(...towards)
      .multiplyScalar(distance)
      .add(target);
    this.camera.lookAt(target);
    this.camera.updateMatrixWorld();
    this.moved();
  }
}
