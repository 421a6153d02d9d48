import { tryParts } from '../helpers/part-space.js';

tryParts('cleats');
