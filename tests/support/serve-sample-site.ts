import { type ChildProcess, spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { TestProject } from 'vitest/node'

const project = fileURLToPath(new URL('../..', import.meta.url))

/**
 * Starts the whole program as a person would, on a free port and with a data folder of its own, and
 * tells the tests its address. The data folder is kept between runs; a changed sample site makes it anew.
 */
export default async function serveSampleSite({ provide }: TestProject) {
  const server = spawn(process.execPath, ['api/start.mjs'], {
    cwd: project,
    env: { ...process.env, STILLGROUND_PORT: '0', STILLGROUND_DATA: `${project}.cache/test-data` },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  provide('sampleAddress', await addressOf(server))
  return async () => {
    const ended = new Promise((done) => server.once('exit', done))
    server.kill('SIGTERM')
    await ended
  }
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = ''
    const listen = (chunk: Buffer) => {
      said += chunk.toString()
      const address = /Stillground is at (http:\S+)/.exec(said)?.[1]
      if (address) resolve(address)
    }
    server.stdout?.on('data', listen)
    server.stderr?.on('data', listen)
    server.once('exit', (code) =>
      reject(new Error(`The server stopped with code ${code} before it was ready:\n${said}`)),
    )
  })
}
