/** Before every test file: the seed of what names none of its own. */
import fc from 'fast-check';
import { givenSeed } from './given-seed.js';

fc.configureGlobal({ seed: givenSeed(20_261_126) });
