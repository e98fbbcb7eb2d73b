import { spawn } from 'node:child_process'
import { access, cp, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { receiptSchema } from '#contract/receipt.ts'
import { startServer } from '../support/start-server.ts'

let folder: string
let own: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'start-'))
  own = join(folder, 'own-site')
  await cp('sample-site', own, { recursive: true, filter: (path) => !/\.ts$|truth/.test(path) })
  const facts = await readFile(join(own, 'site.csv'), 'utf8')
  await writeFile(
    join(own, 'site.csv'),
    facts
      .replace('id,skarrow-quay', 'id,own-site')
      .replace('invented,yes', 'invented,no')
      .replace(/presentAt,.*/, 'presentAt,')
      .replace(/watermark,.*/, 'watermark,'),
  )
})
afterEach(() => rm(folder, { recursive: true, force: true }))

/** Runs the program until it stops by itself. */
function runToTheEnd(options: readonly string[], port = '0'): Promise<{ code: number | null; said: string }> {
  return new Promise((done) => {
    const program = spawn(process.execPath, ['api/start.mjs', '--no-sample', ...options], {
      env: { ...process.env, STILLGROUND_PORT: port, STILLGROUND_DATA: join(folder, 'data') },
    })
    let said = ''
    for (const stream of [program.stdout, program.stderr]) stream.on('data', (chunk) => (said += chunk))
    program.once('exit', (code) => done({ code, said }))
  })
}

describe('starting', () => {
  it('loads a site of one’s own, takes what is dropped into its inbox and keeps it over a restart', async () => {
    const data = join(folder, 'data')
    const first = await startServer(data, ['--no-sample', '--site', own])
    const { sites } = await (await fetch(`${first.address}/api/sites`)).json()
    expect(sites.map((site: { id: string }) => site.id)).toEqual(['own-site'])
    const inbox = join(data, 'inbox', 'own-site')
    // As an upload does it: written under another name, then put in place.
    const text =
      'stamp,logger,channel,raw\n2026-11-02 06:00,SK7105,CH15,1.5\n2026-11-02 07:00,SK7105,CH15,1.6\n'
    await writeFile(join(own, 'layouts', 'plain.json'), JSON.stringify(plainLayout))
    await first.stop()

    const second = await startServer(data, ['--no-sample', '--site', own])
    await writeFile(join(inbox, 'plain_1.csv.part'), text)
    await rename(join(inbox, 'plain_1.csv.part'), join(inbox, 'plain_1.csv'))
    const batches = async () =>
      (await (await fetch(`${second.address}/api/sites/own-site/batches`)).json()).batches as unknown[]
    await expect.poll(batches, { timeout: 40_000, interval: 500 }).toHaveLength(1)
    expect(receiptSchema.parse((await batches())[0])).toMatchObject({ outcome: 'taken', accepted: 2 })
    await expect
      .poll(() =>
        access(join(inbox, 'taken', 'plain_1.csv')).then(
          () => true,
          () => false,
        ),
      )
      .toBe(true)
    await second.stop()

    const third = await startServer(data, ['--no-sample'])
    const kept = await (await fetch(`${third.address}/api/sites/own-site/batches`)).json()
    expect(kept.batches).toHaveLength(1)
    await third.stop()
  })

  it('refuses a site folder with faults, names each by file and line, and loads nothing', async () => {
    const points = await readFile(join(own, 'locations.csv'), 'utf8')
    const [head = '', first = '', ...rest] = points.split('\n')
    const cells = first.split(',')
    cells[head.split(',').indexOf('dipDegrees')] = '95'
    await writeFile(join(own, 'locations.csv'), [head, cells.join(','), ...rest].join('\n'))
    const { code, said } = await runToTheEnd(['--site', own])
    expect(code).toBe(1)
    expect(said).toMatch(/locations\.csv, line 2.*dipDegrees.*95/s)
    expect(said).toContain('was not loaded')
  })

  it('says which port is taken and what to do', async () => {
    const other = createServer()
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done))
    const { port } = other.address() as { port: number }
    const { code, said } = await runToTheEnd([], String(port))
    other.close()
    expect(code).toBe(1)
    expect(said).toContain(`Port ${port} is taken`)
    expect(said).toContain('STILLGROUND_PORT')
  })

  it('says that the data folder is in use by another', async () => {
    const running = await startServer(join(folder, 'data'), ['--no-sample'])
    const { code, said } = await runToTheEnd([])
    await running.stop()
    expect(code).toBe(1)
    expect(said).toMatch(/in use/)
  })
})

const plainLayout = {
  id: 'plain',
  version: 1,
  title: 'Plain',
  encoding: 'utf-8',
  delimiter: ',',
  decimalMark: '.',
  headerRows: 1,
  namesRow: 1,
  time: { columns: ['stamp'], pattern: 'yyyy-MM-dd HH:mm', zone: 'UTC' },
  received: null,
  absent: [''],
  faultCodes: [],
  channels: {
    shape: 'long',
    loggerColumn: 'logger',
    loggerName: null,
    channelColumn: 'channel',
    valueColumn: 'raw',
  },
  fileNamePattern: '^plain_',
}
