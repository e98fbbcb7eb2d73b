import { type ChildProcessByStdio, spawn } from 'node:child_process'
import { basename, join } from 'node:path'
import type { Readable, Writable } from 'node:stream'
import { build } from 'vite'

export type Writer = ChildProcessByStdio<Writable, Readable, null>

const root = new URL('../..', import.meta.url).pathname

/** Processes that write until they are killed. */
export interface KilledWriters {
  /** Starts one; it loads its modules and waits for its orders, a line of JSON. */
  start(): Writer
  /** Sets a writer going, kills it so long after it has said `word`, and returns all that it said. */
  runUntilKilled(writer: Writer, orders: readonly unknown[], word: string, delayMs: number): Promise<string>
  killAll(): void
}

/**
 * `script` is a file under the project's folder. It is put together with what it imports first: dozens of processes would
 * each translate the same sources, which takes longer than most of them live.
 */
export async function killedWriters(script: string): Promise<KilledWriters> {
  const bundled = await bundle(script)
  const alive = new Set<Writer>()
  return {
    start() {
      const writer = spawn(process.execPath, [bundled], {
        cwd: root,
        stdio: ['pipe', 'pipe', 'inherit'],
      })
      alive.add(writer)
      writer.once('close', () => alive.delete(writer))
      return writer
    },
    runUntilKilled: (writer, orders, word, delayMs) =>
      new Promise((resolve, reject) => {
        let said = ''
        let armed = false
        writer.stdout.setEncoding('utf8')
        writer.stdout.on('data', (text: string) => {
          said += text
          if (armed || !said.includes(word)) return
          armed = true
          setTimeout(() => writer.kill('SIGKILL'), delayMs)
        })
        writer.once('close', (code, signal) => {
          if (signal === 'SIGKILL') resolve(said)
          else
            reject(new Error(`the writer ended by itself, code ${code}, after saying: ${said.slice(-200)}`))
        })
        writer.stdin.write(`${JSON.stringify(orders)}\n`)
      }),
    killAll() {
      for (const writer of alive) writer.kill('SIGKILL')
    },
  }
}

/** Packages stay where they are installed, and so must the file that imports them. */
async function bundle(script: string): Promise<string> {
  const name = `${basename(script, '.ts')}.mjs`
  const outDir = join(root, '.cache', 'writers', basename(script, '.ts'))
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'error',
    build: {
      ssr: true,
      outDir,
      emptyOutDir: true,
      target: 'node20',
      rollupOptions: { input: join(root, script), output: { format: 'es', entryFileNames: name } },
    },
  })
  return join(outDir, name)
}
