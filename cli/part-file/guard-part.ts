/** A part from a file, its `build` watched: whatever it does ends in findings that name the line. */
import { checkBuilt } from '../../core/part/check-built.js';
import { checkPlaces } from '../../core/part/check-places.js';
import { type BuildResult, type BuiltPart, type PartDefinition, refuse } from '../../core/part/contract.js';
import { type Finding, hasStop, stop, warn } from '../../core/part/finding.js';
import { formatInput, type InputProblem } from '../../core/part/input-problem.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import { SolidError, ToleranceError } from '../../core/solid/errors.js';
import { KernelSolid } from '../../core/solid/kernel-solid.js';
import type { Mesh } from '../../core/solid/types.js';
import { type PartPath, placeInStack, shownFile, shownPlace } from './place-in-file.js';
import { EndedByPart, reasonOf } from './tame-process.js';

/** The same part; its `build` never throws but for a tolerance that is too fine, and gives what a build gives. */
export function guardPart(definition: PartDefinition, part: PartPath): PartDefinition {
  const fault = (message: string, remedy: string, error?: unknown): BuildResult => {
    const place = error === undefined ? undefined : placeInStack(error, part);
    const where = place ? shownPlace(place, part) : shownFile(part.written);
    return refuse([stop('part-file-build', `In ${where}, build ${message}`, remedy)]);
  };
  let bare: { readonly of: string; readonly mesh: Mesh } | undefined;
  return {
    ...definition,
    build(parameters, stock, kit) {
      let value: unknown;
      try {
        value = definition.build({ ...parameters }, { ...stock }, { ...kit });
      } catch (error) {
        // The job's tolerance is not the file's fault.
        if (error instanceof ToleranceError || isLost(error)) throw error;
        if (error instanceof EndedByPart)
          return fault('called process.exit', 'Return refuse([…]) for what cannot be made', error);
        const reason =
          error instanceof SolidError
            ? `made no sound shape: ${error.message}`
            : `failed: ${reasonOf(error)}`;
        return fault(reason, 'Mend the line, or refuse the parameters that lead there', error);
      }
      // A promise that nobody waits for would end the run when it fails.
      if (value instanceof Promise) value.catch(() => undefined);
      const reading = checkBuilt(value);
      if (!reading.ok) {
        const file = shownFile(part.written);
        const told = (problem: InputProblem): string =>
          problem.path.length === 0
            ? `In ${file}, build ${problem.message}`
            : `In what the build of ${file} returned, ${formatInput({ ...problem, remedy: '' })}`;
        return refuse(reading.problems.map((p) => stop('part-file-build', told(p), p.remedy)));
      }
      const { built } = reading;
      if (built.solid === null) return built;
      let mesh: Mesh;
      try {
        KernelSolid.operand(built.solid, 'build');
        mesh = built.solid.mesh();
      } catch (error) {
        if (error instanceof ToleranceError || isLost(error)) throw error;
        return notASolid(built.solid, error, fault);
      }
      const findings = [...built.findings, ...checkPlaces(built, mesh, kit.tolerance)];
      if (hasStop(findings)) return refuse(findings);
      const of = JSON.stringify([parameters, kit.piece, kit.tolerance]);
      if (isNoStock(stock)) bare = { of, mesh };
      else if (bare?.of === of && asksForStock(built, stock) && isSame(bare.mesh, mesh))
        findings.push(noStockTaken(part));
      return { ...built, findings };
    },
  };
}

const isLost = (error: unknown): boolean => error instanceof SolidError && error.code === 'kernel-lost';

function notASolid(
  solid: unknown,
  error: unknown,
  fault: (message: string, remedy: string) => BuildResult,
): BuildResult {
  if (error instanceof SolidError && error.code === 'scope')
    return fault(
      'gave a solid that was freed already',
      'Make every solid anew inside build: none outlives it, nor a kernel.scope inside it',
    );
  if (error instanceof SolidError && error.code !== 'kernel-failure')
    return fault(`gave a solid that is empty or unsound: ${error.message}`, 'Look at what was cut away last');
  const isModeling = typeof solid === 'object' && solid !== null && 'polygons' in solid;
  return fault(
    'gave a solid that is not of this kernel',
    isModeling
      ? 'Bring it in with kernel.fromModeling(…)'
      : 'Make solids with the kernel that build is given',
  );
}

/** Whether any surface that the part names is to carry stock; all, where it names none. */
const asksForStock = ({ surfaces }: BuiltPart, stock: Stock): boolean =>
  surfaces.length === 0 || surfaces.some(({ surfaceClass }) => stock[surfaceClass] > 0);

const isSame = (a: Mesh, b: Mesh): boolean =>
  a.positions.length === b.positions.length && a.positions.every((value, i) => value === b.positions[i]);

const noStockTaken = (part: PartPath): Finding =>
  warn(
    'stock-not-taken',
    `The build of ${shownFile(part.written)} takes no notice of the stock: the casting has no finishing stock`,
    'Move each surface outward by its stock, as with stock.face, or name no stock class for surfaces that stay as cast',
  );
