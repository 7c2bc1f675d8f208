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
        target: ['safari16.4', 'chrome110', 'firefox110'],
      },
  // libsql finds its native binary by `require`, so it stays outside the bundle.
  ssr: { noExternal: true, external: ['libsql'] },
}));
