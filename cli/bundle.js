/**
 * A build step: joins the compiled modules of the command line into a few files, in place. Node opens thirty files a
 * good deal faster than four hundred. What comes from the registry stays where npm puts it.
 */
import { build } from 'rolldown';

await build({
  input: 'dist/cli/main.js',
  platform: 'node',
  external: (id) => !/^(\.|\/|[A-Za-z]:)/.test(id),
  output: { dir: 'dist/cli', format: 'esm', chunkFileNames: 'chunk-[name].js' },
});
