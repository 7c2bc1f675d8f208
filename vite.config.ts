import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The page is built from `client/`; with `--ssr` the relay is built into one file. */
export default defineConfig(({ isSsrBuild }) => ({
  root: isSsrBuild ? '.' : 'client',
  plugins: isSsrBuild ? [] : [react()],
  build: isSsrBuild
    ? { outDir: 'dist/server', emptyOutDir: true, target: 'node20', copyPublicDir: false }
    : {
        outDir: '../dist/client',
        emptyOutDir: true,
        // Two scripts need no hints of what comes next, and those that come later are near.
        modulePreload: false,
        target: ['safari16.4', 'chrome110', 'firefox110'],
        // tonal's parts fill their tables when they are loaded; those nobody asks for stay out of the page.
        rolldownOptions: {
          treeshake: { moduleSideEffects: (id: string) => !id.includes('@tonaljs') },
          // What every page needs in one script, and what every page of a band needs in another: a tablet that
          // joins asks for two, and they are smaller than in pieces.
          output: {
            codeSplitting: {
              groups: [
                {
                  name: 'index',
                  test: /client\/main\.tsx$|@tonaljs\/(pitch|pitch-note|note)\//,
                  priority: 3,
                },
                // Scales are for what stands under the chords, and that comes later.
                { name: 'scales', test: /@tonaljs\//, priority: 2 },
                { name: 'band-page', test: /client\/app\/band-page\.tsx$/, priority: 1 },
              ],
            },
          },
        },
      },
  // What Yjs logs is plain words: the page's way of logging would bring half of a DOM library with it.
  resolve: isSsrBuild
    ? {}
    : {
        alias: {
          'lib0/logging': fileURLToPath(new URL('node_modules/lib0/logging.node.js', import.meta.url)),
        },
      },
  // libsql finds its native binary by `require`, so it stays outside the bundle.
  ssr: { noExternal: true, external: ['libsql'] },
}));
