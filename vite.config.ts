import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The page: built to dist/web, which the server hands out. `vite` alone serves it beside a running server. */
export default defineConfig({
  root: 'web',
  plugins: [react()],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4870' } },
});
