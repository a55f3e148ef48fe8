// The window's build: static files that the custom scheme and the loopback server serve, with no inline script.
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: at('.'),
  base: './',
  plugins: [react()],
  build: {
    outDir: at('../dist/window'),
    emptyOutDir: true,
    target: 'chrome120',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 4000,
  },
  worker: { format: 'es' },
});
