import { stefanBoltzmann } from '../../foundry/surroundings.js';
import { wasmBytes } from '../../wasm/wasm-bytes.js';
import { faceResistances } from '../faces.js';
import type { HeatProblem } from '../heat-problem.js';
import type { HeatLaw } from '../substance.js';
import { plainKernel, sharedKernel } from './bytes.js';
import type { Crew } from './crew.js';
import * as place from './layout.js';

const pageBytes = 65536;

/** A field's memory and the sweeps over it. */
export interface HeatKernel {
  /** °C and J/mm³ over the solidus, by cell. */
  readonly temperature: Float32Array;
  readonly content: Float32Array;
  /** Bytes held. */
  readonly bytes: number;
  /** Carries heat along an axis; writes temperatures if it is the `last` of a step. J given to the surroundings. */
  sweep(axis: 0 | 1 | 2, seconds: number, last: boolean): number;
}

/** The kernel's WebAssembly, for memory of its own or for one that hands share. */
export const kernelBytes = (shared: boolean): Uint8Array<ArrayBuffer> =>
  wasmBytes(shared ? sharedKernel : plainKernel);

const modules = new Map<boolean, WebAssembly.Module>();
const moduleOf = (shared: boolean): WebAssembly.Module => {
  const made = modules.get(shared) ?? new WebAssembly.Module(kernelBytes(shared));
  modules.set(shared, made);
  return made;
};

/** Lays a problem out in memory: heat content and temperature are the caller's to fill. Memory goes with the kernel. */
export function startKernel(problem: HeatProblem, law: HeatLaw, crew?: Crew): HeatKernel {
  const { grid } = problem;
  const { counts, size } = grid;
  const hands = 1 + (crew?.hands ?? 0);
  let end: number = place.headBytes;
  const room = (bytes: number): number => {
    const at = end;
    end = Math.ceil((end + bytes) / 64) * 64;
    return at;
  };
  const lengths = counts.map((n) => room(8 * n));
  const lost = room(8 * Math.max(counts[1], counts[2]));
  // A record before the first and one after the last.
  const scratchBytes = 64 * Math.ceil((place.recordBytes * (Math.max(...counts) + 2)) / 64);
  const scratch = room(hands * scratchBytes);
  const byCell = (): number => room(4 * size);
  const share = byCell();
  const faces = [byCell(), byCell(), byCell()] as const;
  const [content, temperature] = [byCell(), byCell()];
  const pages = Math.ceil(end / pageBytes);
  const memory = new WebAssembly.Memory({ initial: pages, maximum: pages, shared: crew !== undefined });
  const { buffer } = memory;
  const floats = (at: number): Float32Array => new Float32Array(buffer, at, size);

  const head = new DataView(buffer);
  const setWord = (at: number, value: number): void => head.setUint32(at, value, true);
  const setFloat = (at: number, value: number): void => head.setFloat32(at, value, true);
  for (const axis of [0, 1, 2] as const) {
    setWord(place.atCounts + 4 * axis, counts[axis]);
    setWord(place.atLengths + 4 * axis, lengths[axis]!);
    setWord(place.atFaces + 4 * axis, faces[axis]);
    setFloat(place.atExposed + 4 * axis, problem.exposed?.[axis] ?? 1);
    const edges = grid.edges[axis];
    for (let i = 0; i < counts[axis]; i++) {
      const length = edges[i + 1]! - edges[i]!;
      setFloat(lengths[axis]! + 8 * i, length);
      setFloat(lengths[axis]! + 8 * i + 4, 1 / length);
    }
  }
  setWord(
    place.atShut,
    (problem.shut ?? []).reduce<number>((bits, axis) => bits | (1 << axis), 0),
  );
  setWord(place.atShares, share);
  setWord(place.atContent, content);
  setWord(place.atTemperature, temperature);
  setWord(place.atLost, lost);
  setWord(place.atScratch, scratch);
  setWord(place.atScratchBytes, scratchBytes);
  setFloat(place.atSolidus, law.solidus);
  setFloat(place.atRange, law.liquidus - law.solidus);
  setFloat(place.atBelow, law.below);
  setFloat(place.atWithin, law.within);
  setFloat(place.atAbove, law.above);
  setFloat(place.atMouldHeat, law.mould);
  setFloat(place.atMouldConductivity, problem.mould.conductivity);
  const { solid, liquid } = problem.metal.conductivity;
  setFloat(place.atSolidConductivity, solid);
  setFloat(place.atMoreConductivity, liquid - solid);
  setFloat(place.atOutside, problem.surroundings.temperature - law.solidus);
  setFloat(place.atConvection, problem.surroundings.convection);
  const { emissivity, metalEmissivity = emissivity } = problem.surroundings;
  setFloat(place.atRadiation, emissivity * stefanBoltzmann);
  setFloat(place.atMoreRadiation, (metalEmissivity - emissivity) * stefanBoltzmann);
  floats(share).set(
    problem.present
      ? problem.share.map((s, c) => (problem.present![c] === 0 ? place.absent : s))
      : problem.share,
  );
  for (const [axis, resistances] of faceResistances(problem).entries())
    floats(faces[axis as 0 | 1 | 2]).set(resistances);

  const { sweep } = new WebAssembly.Instance(moduleOf(crew !== undefined), { env: { memory, abort } })
    .exports as { sweep: (axis: number, seconds: number, last: number) => number };
  return {
    temperature: floats(temperature),
    content: floats(content),
    bytes: buffer.byteLength,
    sweep(axis, seconds, last) {
      crew?.attend(memory);
      return sweep(axis, seconds, last ? 1 : 0);
    },
  };
}

const abort = (): never => {
  throw new Error('kernel');
};
