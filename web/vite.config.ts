import { defineConfig } from 'vite'
import solid from 'vite-plugin-solid'

const here = (path: string) => decodeURIComponent(new URL(path, import.meta.url).pathname)

export default defineConfig({
  root: here('.'),
  cacheDir: here('../.cache/vite'),
  plugins: [solid()],
  worker: { format: 'es' },
  // Fetched when first wanted: named here so that the development server does not find them late and reload.
  optimizeDeps: {
    include: [
      '@deck.gl/core',
      '@deck.gl/layers',
      '@deck.gl/maplibre',
      '@duckdb/duckdb-wasm',
      'apache-arrow',
      'd3-delaunay',
      'idb',
      'maplibre-gl',
      'proj4',
      'qr',
      'zod',
    ],
  },
  build: {
    outDir: here('../.cache/web'),
    emptyOutDir: true,
    target: 'es2023',
    // Workers and WebAssembly must stay files of their own: the page's policy allows no data: scripts.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 2000,
  },
})
