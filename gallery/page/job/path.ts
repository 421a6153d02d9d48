/** Keys of a job, outermost first; list indices as digits: `['parts', '2', 'parameters', 'teeth']`. */
export type Path = readonly string[];
