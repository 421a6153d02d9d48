/** A step of the page's build, in Node. */
import type { Plugin } from 'vite';

const left = /\/generators\/mesh\/build\.ts$/;

/**
 * For `plugins` of the page's build, which are not those of its workers: leaves what builds a part from a mesh, a sixth
 * of the script, out of the page's own thread. Parts are built in workers alone; the page needs their forms.
 */
export function leaveOutBuilding(): Plugin {
  let found = false;
  return {
    name: 'patternwright-leave-out-building',
    apply: 'build',
    load(id) {
      if (!left.test(id)) return undefined;
      found = true;
      return `export function buildMesh() { throw new Error('Parts are built in workers.'); }`;
    },
    buildEnd(error) {
      if (!found && !error) this.error(`No module is like ${left}: has it moved?`);
    },
  };
}
