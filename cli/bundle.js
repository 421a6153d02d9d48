/**
 * A build step: joins the compiled modules of the command line and of the package's face into a few files, in place;
 * both share them, so that a part file's fields are known to the command that runs it. Node opens thirty files a
 * good deal faster than four hundred. What comes from the registry stays where npm puts it.
 */
import { build } from 'rolldown';

await build({
  input: ['dist/cli/main.js', 'dist/cli/api.js'],
  platform: 'node',
  external: (id) => !/^(\.|\/|[A-Za-z]:)/.test(id),
  output: { dir: 'dist/cli', format: 'esm', chunkFileNames: 'chunk-[name].js' },
});
