import { cpSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { startServer } from './start-server.ts'

const cache = (name: string): string => fileURLToPath(new URL(`../../.cache/${name}`, import.meta.url))

/**
 * A server of its own on a copy of the prepared sample: what is written there must not stand in the way of other
 * journeys. The copy goes when it is stopped.
 */
export async function startOwnServer(name: string): Promise<{ address: string; stop: () => Promise<void> }> {
  const folder = cache(name)
  rmSync(folder, { recursive: true, force: true })
  cpSync(cache('test-data'), folder, { recursive: true })
  const { address, stop } = await startServer(folder)
  return {
    address,
    async stop() {
      await stop()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
