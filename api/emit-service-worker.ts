import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Plugin } from 'vite'

const place = 'service-worker.js'

/**
 * Gives the service worker the list of all files of its build and writes the same list beside it for the page, which
 * shows what keeping will take. A changed file changes the list, and so the worker, which browsers then renew.
 */
export function emitServiceWorker(publicFolder: string): Plugin {
  return {
    name: 'stillground-service-worker',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const worker = bundle[place]
        if (worker?.type !== 'chunk') return this.error('the service worker was not built')
        const built = Object.values(bundle)
          .filter(({ fileName }) => fileName !== place)
          .map((file) => ({ name: file.fileName, content: file.type === 'chunk' ? file.code : file.source }))
        const served = readdirSync(publicFolder).map((name) => ({
          name,
          content: readFileSync(join(publicFolder, name)),
        }))
        const files = [...built, ...served].sort((a, b) => (a.name < b.name ? -1 : 1))
        const hash = createHash('sha256')
        for (const { name, content } of files) hash.update(name).update(content)
        const shell = JSON.stringify({
          version: hash.digest('hex').slice(0, 16),
          files: files.map(({ name, content }) => ({ path: `/${name}`, bytes: Buffer.byteLength(content) })),
        })
        worker.code = worker.code.replaceAll('__SHELL__', () => shell)
        this.emitFile({ type: 'asset', fileName: 'shell.json', source: shell })
      },
    },
  }
}
