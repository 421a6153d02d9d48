import { cpus, loadavg, totalmem } from 'node:os';

/** What the figures were measured on, and what may have spoilt them. */
export interface Machine {
  readonly words: string;
  readonly warnings: readonly string[];
}

export function describeMachine(): Machine {
  const processors = cpus();
  const [load] = loadavg() as [number, number, number];
  const model = processors[0]?.model.trim() || 'unknown processor';
  return {
    words:
      `${model}, ${processors.length} cores, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, ` +
      `Node ${process.version}, ${process.platform} ${process.arch}; load at the start ${load.toFixed(2)}`,
    warnings:
      load > 0.25 * processors.length
        ? [
            `The machine was busy (load ${load.toFixed(2)} on ${processors.length} cores): ratios within a row hold better than seconds.`,
          ]
        : [],
  };
}
