import { type ChildProcess, spawn } from 'node:child_process'
import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('../..', import.meta.url))

export interface BegunServer {
  /** Comes once the server answers; fails with what it said when it stops before. */
  readonly address: Promise<string>
  said(): string
  stop(): Promise<void>
}

/**
 * Begins the whole program as a person would, on a free port and with a data folder of its own; open for changes, so
 * that a journey needs no account.
 */
export function beginServer(dataFolder: string, options: readonly string[] = []): BegunServer {
  const server = spawn(process.execPath, ['api/start.mjs', '--open-for-changes', ...options], {
    cwd: project,
    env: { ...process.env, STILLGROUND_PORT: '0', STILLGROUND_DATA: resolve(project, dataFolder) },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const ended = new Promise((done) => server.once('exit', done))
  let said = ''
  server.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString()
  })
  return {
    address: addressOf(server),
    said: () => said,
    async stop() {
      server.kill('SIGTERM')
      await ended
    },
  }
}

/** As `beginServer`, once it answers. */
export async function startServer(
  dataFolder: string,
  options: readonly string[] = [],
): Promise<{ address: string; said: () => string; stop: () => Promise<void> }> {
  const begun = beginServer(dataFolder, options)
  return { ...begun, address: await begun.address }
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((done, failed) => {
    let said = ''
    const listen = (chunk: Buffer) => {
      said += chunk.toString()
      const address = /Stillground is at (http:\S+)/.exec(said)?.[1]
      if (address) done(address)
    }
    server.stdout?.on('data', listen)
    server.stderr?.on('data', listen)
    server.once('exit', (code) =>
      failed(new Error(`The server stopped with code ${code} before it was ready:\n${said}`)),
    )
  })
}
