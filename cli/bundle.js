/**
 * A build step: joins the compiled modules of the command line, of its threads and of the package's face into a few files,
 * in place; all share them, so that a part file's fields are known to the command that runs it. Node opens thirty files a
 * good deal faster than four hundred. What comes from the registry stays where npm puts it.
 */
import { build } from 'rolldown';

await build({
  input: {
    main: 'dist/cli/main.js',
    api: 'dist/cli/api.js',
    'crew/worker': 'dist/cli/crew/worker.js',
  },
  platform: 'node',
  external: (id) => !/^(\.|\/|[A-Za-z]:)/.test(id),
  output: { dir: 'dist/cli', format: 'esm', chunkFileNames: 'chunk-[name].js' },
});
