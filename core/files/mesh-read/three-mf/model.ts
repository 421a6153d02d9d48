/** Model parts of 3MF packages: Core Specification 1.3, chapters 3 to 5, from memory. */
import { millimetresPerInch } from '../../../units/length.js';
import { FormatError, type FormatErrorCode } from '../../format-error.js';
import { checkCoordinate } from '../coordinate.js';
import { type GrowingFloats, type GrowingIndices, growingFloats, growingIndices } from '../growing.js';
import type { MeshLimits } from '../limits.js';
import { numberOf } from '../number-text.js';
import { partKey } from '../package/part-name.js';
import { shortName } from '../package/words.js';
import { showBytes } from '../text-cursor.js';
import { checkPlacings, checkTriangles, checkVertices } from '../too-large.js';
import { readTransform, type Transform } from './transform.js';
import type { XmlElement, XmlHandler } from './xml-reader.js';

const core = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
/** Objects in parts of their own, by an attribute `path`. */
const production = 'http://schemas.microsoft.com/3dmanufacturing/production/2015/06';
/** Extensions that add nothing to a shape. */
const harmless = new Set([
  core,
  production,
  'http://schemas.microsoft.com/3dmanufacturing/material/2015/02',
  'http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07',
]);

/** mm in each of the units of chapter 3.1. */
const units: Readonly<Record<string, number>> = {
  micron: 0.001,
  millimeter: 1,
  centimeter: 10,
  inch: millimetresPerInch,
  foot: 12 * millimetresPerInch,
  meter: 1000,
};

/** Which element stands in which. Others are passed over with all they hold. */
const parentOf: Readonly<Record<string, string>> = {
  resources: 'model',
  build: 'model',
  object: 'resources',
  item: 'build',
  mesh: 'object',
  components: 'object',
  component: 'components',
  vertices: 'mesh',
  triangles: 'mesh',
  vertex: 'vertices',
  triangle: 'triangles',
};

/** An object put somewhere: by a component in another, or by an item in the build. */
export interface ModelPlacing {
  /** of the object, with its part: `objectKey` */
  readonly key: string;
  /** The part that holds the object. */
  readonly part: string;
  readonly transform: Transform | null;
  /** Where it is said, for errors. */
  readonly where: string;
}
export interface ModelObject {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  readonly components: readonly ModelPlacing[];
  /** Support for the printer: no part of the shape. */
  readonly support: boolean;
}
export interface Model {
  /** mm */
  readonly unit: number;
  readonly objects: ReadonlyMap<string, ModelObject>;
  readonly items: readonly ModelPlacing[];
}

const objectKey = (part: string, id: string): string => `${part}#${id}`;

interface OpenObject {
  readonly key: string;
  readonly support: boolean;
  readonly where: string;
  positions: GrowingFloats | null;
  triangles: GrowingIndices | null;
  readonly components: ModelPlacing[];
  greatest: number;
  greatestAt: number;
  parts: number;
}

/** Takes a model part's elements as they come. */
export class ModelReader implements XmlHandler {
  #unit: number | null = null;
  readonly #objects = new Map<string, ModelObject>();
  readonly #items: ModelPlacing[] = [];
  readonly #open: string[] = [];
  #object: OpenObject | null = null;
  /** Levels inside an element that is passed over. */
  #passing = 0;
  #line = (): number => 0;

  /**
   * @param part its name in the directory
   * @param shown its name as it is written, for errors
   * @param counts what all parts have so far; objects, components and items are placings
   */
  constructor(
    private readonly part: string,
    private readonly shown: string,
    private readonly limits: MeshLimits,
    private readonly counts: { vertices: number; triangles: number; placings: number },
  ) {}

  open(element: XmlElement, line: () => number): void {
    this.#line = line;
    if (this.#passing > 0) {
      this.#passing++;
      return;
    }
    const { name } = element;
    if (this.#open.length === 0) {
      this.#readRoot(element);
    } else if (element.namespace !== core || !Object.hasOwn(parentOf, name)) {
      this.#passing = 1;
      return;
    } else if (parentOf[name] !== this.#open.at(-1)) {
      this.#fail('three-mf-xml', `a "${name}" stands in "${this.#open.at(-1)}".`);
    } else this.#read(name, element);
    this.#open.push(name);
  }

  close(name: string): void {
    if (this.#passing > 0) {
      this.#passing--;
      return;
    }
    this.#open.pop();
    if (name === 'object') this.#endObject();
  }

  model(): Model {
    return { unit: this.#unit ?? 1, objects: this.#objects, items: this.#items };
  }

  #read(name: string, element: XmlElement): void {
    switch (name) {
      // First, for there are many.
      case 'vertex':
        checkVertices(++this.counts.vertices, this.limits);
        for (const axis of ['x', 'y', 'z']) this.#object!.positions!.push(this.#coordinate(element, axis));
        return;
      case 'triangle':
        checkTriangles(++this.counts.triangles, this.limits);
        for (const corner of ['v1', 'v2', 'v3']) this.#addCorner(element, corner);
        return;
      case 'object':
        checkPlacings(++this.counts.placings, this.limits);
        this.#startObject(element);
        return;
      case 'vertices':
        this.#object!.positions = this.#once(this.#object!.positions, name) ?? growingFloats();
        return;
      case 'triangles':
        this.#object!.triangles = this.#once(this.#object!.triangles, name) ?? growingIndices();
        return;
      case 'mesh':
      case 'components':
        if (++this.#object!.parts > 1)
          this.#fail(
            'three-mf-object',
            `${this.#object!.where} has more than one mesh or list of components.`,
          );
        return;
      case 'component':
        this.#object!.components.push(this.#placing(element, `A component of ${this.#object!.where}`));
        return;
      case 'item':
        this.#items.push(this.#placing(element, `Item ${this.#items.length + 1} of the build`));
        return;
    }
  }

  #once<T>(earlier: T | null, name: string): null {
    if (earlier !== null) this.#fail('three-mf-object', `${this.#object!.where} has its ${name} twice.`);
    return null;
  }

  #readRoot(element: XmlElement): void {
    if (element.name !== 'model' || element.namespace !== core)
      this.#fail('three-mf-xml', 'it is no model of the 3MF Core Specification.');
    const unit = element.attribute('unit') ?? 'millimeter';
    const factor = Object.hasOwn(units, unit) ? units[unit] : undefined;
    if (factor === undefined)
      this.#fail(
        'three-mf-unit',
        `its unit is "${shortName(unit)}".`,
        `A unit is one of ${Object.keys(units).join(', ')}.`,
      );
    this.#unit = factor;
    const required = element.attribute('requiredextensions') ?? '';
    for (const prefix of required.split(/\s+/).filter((word) => word !== '')) {
      const namespace = element.namespaceOf(prefix) ?? prefix;
      if (!harmless.has(namespace)) {
        this.#fail(
          'three-mf-extension',
          `it cannot be read without the extension "${shortName(namespace)}".`,
          'Export the part as a plain mesh, without extensions.',
        );
      }
    }
  }

  #startObject(element: XmlElement): void {
    const id = element.attribute('id') ?? '';
    if (!/^\d{1,10}$/.test(id)) this.#fail('three-mf-object', `an object has the id "${shortName(id)}".`);
    const key = objectKey(this.part, String(Number(id)));
    if (this.#objects.has(key)) this.#fail('three-mf-object', `there are two objects ${id}.`);
    const type = element.attribute('type') ?? 'model';
    this.#object = {
      key,
      where: `object ${id}`,
      support: type === 'support' || type === 'solidsupport' || type === 'other',
      positions: null,
      triangles: null,
      components: [],
      greatest: -1,
      greatestAt: 0,
      parts: 0,
    };
  }

  #endObject(): void {
    const { key, support, components, positions, triangles, greatest, greatestAt, where } = this.#object!;
    const points = positions?.take() ?? new Float64Array();
    if (greatest >= points.length / 3) {
      throw new FormatError(
        'mesh-index',
        `Triangle ${greatestAt + 1} of ${where} names vertex ${greatest}, but it has ${points.length / 3}, counted from 0.`,
        'The file is damaged or was written wrongly: export it again.',
      );
    }
    this.#objects.set(key, {
      positions: points,
      triangles: triangles?.take() ?? new Uint32Array(),
      components,
      support,
    });
    this.#object = null;
  }

  #coordinate(element: XmlElement, axis: string): number {
    const text = element.attribute(axis) ?? '';
    const value = numberOf(text);
    if (Math.abs(value) < 1e38) return value;
    checkCoordinate(value, () => ({
      where: this.#where(),
      word: showBytes(new TextEncoder().encode(text.trim())),
      wrong: 'three-mf-xml',
    }));
    return value;
  }

  #addCorner(element: XmlElement, corner: string): void {
    const object = this.#object!;
    const text = (element.attribute(corner) ?? '').trim();
    if (!/^\+?\d{1,10}$/.test(text))
      this.#fail('mesh-index', `a triangle names the vertex "${shortName(text)}".`);
    const index = Number(text);
    if (index > object.greatest) {
      object.greatest = index;
      object.greatestAt = object.triangles!.length / 3;
    }
    object.triangles!.push(index);
  }

  #placing(element: XmlElement, what: string): ModelPlacing {
    checkPlacings(++this.counts.placings, this.limits);
    const id = element.attribute('objectid') ?? '';
    const path = element.attributeOf(production, 'path');
    const where = `${what}, line ${this.#line()}`;
    if (!/^\d{1,10}$/.test(id)) this.#fail('three-mf-object', `${what} names the object "${shortName(id)}".`);
    const part = path === undefined ? this.part : partKey(path);
    return {
      part,
      key: objectKey(part, String(Number(id))),
      transform: readTransform(element.attribute('transform'), where),
      where,
    };
  }

  #where(): string {
    return `"${shortName(this.shown)}" in the package, line ${this.#line()}`;
  }

  #fail(code: FormatErrorCode, message: string, remedy = 'Export the file again.'): never {
    throw new FormatError(code, `${this.#where()}: ${message}`, remedy);
  }
}
