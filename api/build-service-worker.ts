import { createHash } from 'node:crypto'
import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

/** What reports are written with, 2.5 MB: they are made at a desk, from the server. */
const ofReports = /^\/assets\/(?:write-report|report-worker|DejaVuSansCondensed|sRGB_IEC61966)/

/**
 * Builds the service worker beside an already built page, with the list of the page's files in it, and writes the
 * same list for the page, which shows what keeping will take. By itself, because browsers want a worker in one file;
 * a changed file of the page changes the list, and so the worker, which browsers then renew.
 */
export async function buildServiceWorker(entry: string, webFolder: string): Promise<void> {
  const hash = createHash('sha256')
  const files: { path: string; bytes: number }[] = []
  for (const name of (await readdir(webFolder, { recursive: true, withFileTypes: true }))
    .filter((one) => one.isFile() && !one.name.startsWith('.'))
    .map((one) => join(one.parentPath, one.name).slice(webFolder.length).replaceAll('\\', '/'))
    .filter((path) => !ofReports.test(path))
    .sort()) {
    const content = await readFile(join(webFolder, name))
    hash.update(name).update(content)
    files.push({ path: name, bytes: content.byteLength })
  }
  const shell = JSON.stringify({ version: hash.digest('hex').slice(0, 16), files })
  await writeFile(join(webFolder, 'shell.json'), shell)
  await buildWorker(entry, webFolder, 'service-worker.js', { __SHELL__: shell })
}

/** Builds the worker that shows what is pushed; it is no file of the page, so no device keeps it for the page. */
export const buildPushWorker = (entry: string, webFolder: string): Promise<void> =>
  buildWorker(entry, webFolder, 'push-worker.js', {})

async function buildWorker(
  entry: string,
  webFolder: string,
  name: string,
  define: Readonly<Record<string, string>>,
): Promise<void> {
  const { build } = await import('vite')
  await build({
    configFile: false,
    publicDir: false,
    logLevel: 'error',
    define,
    build: {
      outDir: webFolder,
      emptyOutDir: false,
      target: 'es2023',
      rollupOptions: { input: entry, output: { format: 'iife', entryFileNames: name } },
    },
  })
}
