import { defineConfig } from 'vite';
import { offlinePlugin } from './page/offline/list-files.js';

/** The page: static files that work under any path of any host. */
export default defineConfig({
  root: new URL('./page', import.meta.url).pathname,
  base: './',
  publicDir: new URL('../dist/public', import.meta.url).pathname,
  build: {
    outDir: new URL('../dist/page', import.meta.url).pathname,
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 2000,
  },
  worker: { format: 'es' },
  plugins: [offlinePlugin()],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
