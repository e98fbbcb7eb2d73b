import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'
import solid from 'vite-plugin-solid'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

export default defineConfig({
  root: here('.'),
  cacheDir: here('../.cache/vite'),
  plugins: [solid()],
  worker: { format: 'es' },
  build: {
    outDir: here('../.cache/web'),
    emptyOutDir: true,
    target: 'es2023',
    // Workers and WebAssembly must stay files of their own: the page's policy allows no data: scripts.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1200,
  },
})
