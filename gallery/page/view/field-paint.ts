import {
  ClampToEdgeWrapping,
  Data3DTexture,
  DataTexture,
  type IUniform,
  LinearFilter,
  NearestFilter,
  RedFormat,
  SRGBColorSpace,
  UnsignedByteType,
  Vector3,
} from 'three';
import type { FieldVolume } from '../../../core/report/freeze/field-volume.js';

/** Looks the field up at a place `at` in the body's own coordinates, mm: linear light. */
export const fieldLookup = /* glsl */ `
uniform sampler3D fieldValues;
uniform sampler2D fieldColours;
uniform vec3 fieldMin;
uniform vec3 fieldSize;
vec3 fieldAt(vec3 at) {
  float value = texture(fieldValues, (at - fieldMin) / fieldSize).r;
  return texture(fieldColours, vec2((value * 255.0 + 0.5) / 256.0, 0.5)).rgb;
}
`;

/** A field on the graphics card, and what the shaders of painted bodies read of it. */
export class FieldPaint {
  readonly uniforms: Readonly<Record<string, IUniform>>;
  readonly #values: Data3DTexture;
  readonly #colours: DataTexture;

  constructor(readonly volume: FieldVolume) {
    const [nx, ny, nz] = volume.counts;
    const values = new Data3DTexture(volume.values, nx, ny, nz);
    values.format = RedFormat;
    values.type = UnsignedByteType;
    values.minFilter = LinearFilter;
    values.magFilter = LinearFilter;
    values.wrapS = ClampToEdgeWrapping;
    values.wrapT = ClampToEdgeWrapping;
    values.wrapR = ClampToEdgeWrapping;
    values.unpackAlignment = 1;
    values.needsUpdate = true;
    const table = new Uint8Array(1024).fill(255);
    for (let i = 0; i < 256; i++) table.set(volume.colours.subarray(3 * i, 3 * i + 3), 4 * i);
    const colours = new DataTexture(table, 256, 1);
    colours.colorSpace = SRGBColorSpace;
    colours.minFilter = NearestFilter;
    colours.magFilter = NearestFilter;
    colours.needsUpdate = true;
    this.#values = values;
    this.#colours = colours;
    this.uniforms = {
      fieldValues: { value: values },
      fieldColours: { value: colours },
      fieldMin: { value: new Vector3(...volume.min) },
      fieldSize: { value: new Vector3(...volume.size) },
    };
  }

  dispose(): void {
    this.#values.dispose();
    this.#colours.dispose();
  }
}
