import { useEffect, useState } from 'preact/hooks';
import type { Bench } from './bench.js';
import type { BenchState } from './state.js';

/** The bench's state, drawn again when it changes. */
export function useBench(bench: Bench): BenchState {
  const [state, setState] = useState(bench.state);
  useEffect(() => {
    const listen = (): void => setState(bench.state);
    listen();
    return bench.subscribe(listen);
  }, [bench]);
  return state;
}
