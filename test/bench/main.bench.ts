/**
 * The main figures, each a ratio measured in one run: `npm run bench -- main.bench`, one section by `-t`, for example
 * `npm run bench -- main.bench -t start-up`. Writes a table (see `sheet.ts`). Not among the tests: it takes a quarter of an
 * hour, and wants a quiet machine.
 */
import { afterAll, beforeAll, test } from 'vitest';
import { buildForBench } from './built-program.js';
import { describeMachine } from './machine.js';
import { benchBatch, benchMemory, benchThroughput } from './main/batch.js';
import { benchFloor } from './main/floor.js';
import { benchModeling } from './main/modeling.js';
import { benchNesting } from './main/nesting.js';
import { benchStartUp } from './main/start-up.js';
import { benchTriangles } from './main/triangles.js';
import { Sheet } from './sheet.js';

const sheet = new Sheet(describeMachine());
beforeAll(buildForBench);
afterAll(() => sheet.write());

test('start-up', () => benchStartUp(sheet));
test('floor', () => benchFloor(sheet));
test('against @jscad/modeling', () => benchModeling(sheet));
test('triangles', () => benchTriangles(sheet));
test('nesting', () => benchNesting(sheet));
test('throughput', () => benchThroughput(sheet));
test('memory', () => benchMemory(sheet));
test('batch', () => benchBatch(sheet));
