import { useEffect } from 'preact/hooks';
import { benchFragment } from '../route.js';
import type { Bench } from './bench.js';

/** Ctrl+Z and Ctrl+Shift+Z (⌘ on some keyboards) go back and forward, but in a box they undo its typing. */
export function useUndoKeys(bench: Bench): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== 'z') return;
      if (location.hash !== benchFragment) return;
      if (event.target instanceof HTMLElement && event.target.matches('textarea, input:not([type=range])'))
        return;
      event.preventDefault();
      if (event.shiftKey) bench.redo();
      else bench.undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [bench]);
}
