/** `patternwright` in a part file is the program that runs it, wherever the file lies and whatever is installed there. */
import { existsSync } from 'node:fs';
import * as modules from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ownName = 'patternwright';

/** The built package's face: beside the built command, which the build may have joined into fewer files, or above. */
function ownAddress(from: string = import.meta.url): string | undefined {
  for (const way of ['./api.js', '../api.js']) {
    const address = new URL(way, from);
    if (existsSync(address)) return address.href;
  }
  return undefined;
}

/** The folder of the built program. */
export const ownFolder = (): string => fileURLToPath(new URL('..', ownAddress() ?? import.meta.url));

/** Runs in a thread of its own, without access to anything here. */
const hookSource = `
let own;
export const initialize = (data) => { own = data; };
export const resolve = (name, context, next) =>
  name === own.name ? { url: own.url, shortCircuit: true } : next(name, context);
`;

type Resolve = (name: string, context: object) => { url: string; shortCircuit?: boolean };
interface NewerModules {
  /** Since Node 22.15: in this thread, so quicker. */
  readonly registerHooks?: (hooks: {
    resolve: (name: string, context: object, next: Resolve) => ReturnType<Resolve>;
  }) => unknown;
}

let served = false;

/** From now on `import … from 'patternwright'` gives this program's own modules, which hold what fields are. */
export function serveOwnPackage(): void {
  const url = ownAddress();
  if (served || url === undefined) return;
  served = true;
  const { registerHooks } = modules as NewerModules;
  if (registerHooks)
    registerHooks({
      resolve: (name, context, next) =>
        name === ownName ? { url, shortCircuit: true } : next(name, context),
    });
  else
    modules.register(`data:text/javascript,${encodeURIComponent(hookSource)}`, {
      parentURL: pathToFileURL('/').href,
      data: { name: ownName, url },
    });
}
