import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Layout, layoutSchema } from '#contract/layout.ts'
import { generateSample } from '../../sample-site/generate.ts'
import { parseRows } from '../../sample-site/logging/read-records.ts'
import { readSampleSite, sampleFolder } from './read-sample-site.ts'

const site = readSampleSite()
const layouts: readonly Layout[] = readdirSync(`${sampleFolder}layouts`).map((file) =>
  layoutSchema.parse(JSON.parse(readFileSync(`${sampleFolder}layouts/${file}`, 'utf8'))),
)
const folders = [0, 1].map(() => mkdtempSync(join(tmpdir(), 'skarrow-')))
const folder = folders[0] as string
let made: { files: number; readings: number }
const shares: number[] = []

beforeAll(async () => {
  made = await generateSample(folder, (share) => shares.push(share))
  await generateSample(folders[1] as string)
})
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true })
})

const deliveries = () => parseRows(readFileSync(join(folder, 'deliveries.csv'), 'utf8'))
const textOf = (file: string) =>
  readFileSync(join(folder, file), file.includes('/street/') ? 'latin1' : 'utf8')
const fileNamed = (name: string) =>
  deliveries().find(({ file }) => basename(file ?? '') === name)?.file as string

const minuteMs = 60_000
/** `01.02.2027 00:08:15`, UTC. */
function fromDotted(text: string): number {
  const [day, month, year] = text.slice(0, 10).split('.')
  return Date.parse(`${year}-${month}-${day}T${text.slice(11)}Z`)
}
/** `01/02/2027 00:00` outside the repeated hour; Atlantic/Azores is one hour behind UTC, in summer level with it. */
function fromAzores(text: string): number {
  const [day, month, year] = text.slice(0, 10).split('/')
  const asUtc = Date.parse(`${year}-${month}-${day}T${text.slice(11)}Z`)
  const summer = asUtc >= Date.UTC(2027, 2, 28, 1) && asUtc < Date.UTC(2027, 9, 31, 0)
  return summer ? asUtc : asUtc + 60 * minuteMs
}

function sumOf(root: string): string {
  const hash = createHash('sha256')
  const walk = (at: string) => {
    for (const name of readdirSync(at).sort()) {
      const path = join(at, name)
      if (statSync(path).isDirectory()) walk(path)
      else hash.update(path.slice(root.length)).update(readFileSync(path))
    }
  }
  walk(root)
  return hash.digest('hex')
}

describe('generateSample', () => {
  it('writes the same bytes every time', () => {
    expect(sumOf(folders[1] as string)).toBe(sumOf(folder))
  })

  it('makes 2.6 million readings within five per cent', () => {
    expect(made.readings).toBeGreaterThan(2_600_000 * 0.95)
    expect(made.readings).toBeLessThan(2_600_000 * 1.05)
  })

  it('tells its progress, always onwards, to the end', () => {
    expect(shares.at(-1)).toBe(1)
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
  })

  it('lists every file once, in the order of arrival, none after the present', () => {
    const rows = deliveries()
    expect(rows).toHaveLength(made.files)
    expect(new Set(rows.map(({ file }) => file)).size).toBe(made.files)
    const instants = rows.map(({ receivedAt }) => Date.parse(receivedAt as string))
    expect(instants).toEqual([...instants].sort((a, b) => a - b))
    expect(instants.at(-1)).toBeLessThanOrEqual(site.facts.presentEpochMs as number)
    for (const { file } of rows) expect(statSync(join(folder, file as string)).size).toBeGreaterThan(50)
  })

  it('names every file so that exactly one layout claims it', () => {
    for (const { file } of deliveries()) {
      const claims = layouts.filter(({ fileNamePattern }) =>
        new RegExp(fileNamePattern as string).test(basename(file ?? '')),
      )
      expect(claims, file).toHaveLength(1)
    }
  })

  it('names only columns that the layouts know and channels that are wired', () => {
    const channels = new Map(
      site.loggers.map(({ id, serial }) => [
        serial,
        new Set(site.wiring.filter(({ logger }) => logger === id).map(({ channel }) => channel)),
      ]),
    )
    for (const { file } of deliveries()) {
      const layout = layouts.find(({ fileNamePattern }) =>
        new RegExp(fileNamePattern as string).test(basename(file ?? '')),
      ) as Layout
      const lines = textOf(file as string).split(/\r?\n/)
      const names = (lines[(layout.namesRow ?? 1) - 1] as string).split(layout.delimiter)
      for (const column of [...layout.time.columns, ...(layout.received ? [layout.received.column] : [])])
        expect(names, file).toContain(column)
      if (layout.channels.shape === 'wide') {
        const rest = names.filter(
          (name) =>
            !layout.time.columns.includes(name) &&
            name !== layout.received?.column &&
            !(layout.channels.shape === 'wide' && layout.channels.ignored.includes(name)),
        )
        for (const name of rest) {
          const groups = new RegExp(layout.channels.namePattern).exec(name)?.groups
          expect(channels.get(groups?.logger ?? '')?.has(groups?.channel ?? ''), `${file} ${name}`).toBe(true)
        }
      } else {
        expect(names).toContain(layout.channels.channelColumn)
        expect(names).toContain(layout.channels.valueColumn)
      }
    }
  })

  it('gives every street row a receipt minutes after its reading and before its file arrives', () => {
    const files = deliveries().filter(({ file }) => file?.includes('/street/'))
    const delays: number[] = []
    for (const { file, receivedAt } of files) {
      const lines = textOf(file as string)
        .trim()
        .split('\r\n')
      expect(lines[2]?.split(';').slice(0, 3), file).toEqual(['Date', 'Time', 'Received'])
      for (const line of lines.slice(4)) {
        const [date, time, received] = line.split(';') as [string, string, string]
        const receivedEpochMs = fromDotted(received)
        delays.push(receivedEpochMs - fromDotted(`${date} ${time}`))
        expect(receivedEpochMs).toBeLessThanOrEqual(Date.parse(receivedAt as string))
      }
    }
    expect(files).toHaveLength(4 * 39)
    expect(delays.length).toBeGreaterThan(4 * 6500)
    expect(delays.reduce((a, b) => Math.min(a, b))).toBeGreaterThanOrEqual(2 * minuteMs)
    expect(delays.reduce((a, b) => Math.max(a, b))).toBeLessThanOrEqual(10 * minuteMs)
    expect(new Set(delays).size).toBeGreaterThan(400)
  })

  it('has no street or terrace reading that counts as late', () => {
    const lateAfter = (folder: string) => {
      const serials = new Set(
        deliveries()
          .filter(({ file }) => file?.includes(`/${folder}/`))
          .flatMap(({ file }) => textOf(file as string).match(/SK\d{4}/g) ?? []),
      )
      const loggers = new Set(site.loggers.filter(({ serial }) => serials.has(serial)).map(({ id }) => id))
      const sensors = new Set(
        site.wiring.filter(({ logger }) => loggers.has(logger)).map(({ sensor }) => sensor),
      )
      return new Set(
        site.sensors.filter(({ id }) => sensors.has(id)).map(({ lateAfterMinutes }) => lateAfterMinutes),
      )
    }
    expect(lateAfter('street')).toEqual(new Set([180]))
    expect(lateAfter('terrace')).toEqual(new Set([8 * 24 * 60]))

    const files = deliveries().filter(({ file }) => file?.includes('/terrace/'))
    expect(files).toHaveLength(39)
    const ages = files.map(({ file, receivedAt }) => {
      const first = (textOf(file as string).split('\n')[2] as string).split('\t')[0] as string
      return Date.parse(receivedAt as string) - fromAzores(first)
    })
    // The first row of a file waits the whole week and some hours of the day after it.
    expect(Math.max(...ages)).toBeGreaterThan(7 * 24 * 60 * minuteMs)
    expect(Math.max(...ages)).toBeLessThan(8 * 24 * 60 * minuteMs)
  })

  it('brings the terrace up to the present with its last visit', () => {
    const last = deliveries()
      .filter(({ file }) => file?.includes('/terrace/'))
      .at(-1)
    const stamp = textOf(last?.file as string)
      .trim()
      .split('\n')
      .at(-1)
      ?.split('\t')[0] as string
    const present = site.facts.presentEpochMs as number
    expect(Date.parse(last?.receivedAt as string)).toBeLessThanOrEqual(present)
    expect(present - fromAzores(stamp)).toBe(60 * minuteMs)
  })

  it('writes both passes of the repeated hour in local time, one after the other', () => {
    const stamps = textOf(fileNamed('terrace_local_20271025.txt'))
      .split('\n')
      .map((line) => line.split('\t')[0])
    expect(stamps.filter((stamp) => stamp === '31/10/2027 00:00')).toHaveLength(2)
    const spring = textOf(fileNamed('terrace_local_20270322.txt'))
      .split('\n')
      .map((line) => line.split('\t')[0])
    expect(spring).not.toContain('28/03/2027 00:00')
    expect(spring).toContain('28/03/2027 01:00')
  })

  it('lets about one hour in seven of LG-19 through while the containers stand, and all of it in its memory', () => {
    const through = ['20270802', '20270809', '20270816']
      .flatMap((week) => textOf(fileNamed(`dock_network_${week}.csv`)).split('\n'))
      .filter((line) => line.includes(',SK7119,CH01,'))
      .map((line) => Date.parse(line.slice(0, 20)))
      .filter((at) => at >= Date.UTC(2027, 7, 4) && at < Date.UTC(2027, 7, 17))
    const memory = textOf(fileNamed('memory_SK7119_20270818.txt'))
      .split('\n')
      .filter((line) => line.includes('|SK7119|CH01|'))
      .map((line) => Number(line.split('|')[0]) * 1000)
      .filter((at) => at >= Date.UTC(2027, 7, 4) && at < Date.UTC(2027, 7, 17))
    expect(memory).toHaveLength(13 * 96)
    expect(through.length / memory.length).toBeGreaterThan(0.07)
    expect(through.length / memory.length).toBeLessThan(0.22)
    const longest = through.reduce(
      (gap, at, i) => Math.max(gap, i === 0 ? 0 : at - (through[i - 1] as number)),
      0,
    )
    expect(longest).toBeGreaterThan(6 * 3_600_000)
  })

  it('gives the readings of LG-03 twice, number for number', () => {
    const radio = new Map(
      textOf(fileNamed('dock_network_20270510.csv'))
        .split('\n')
        .filter((line) => line.includes(',SK7103,'))
        .map((line) => line.split(','))
        .map(([stamp, , channel, value]) => [`${Date.parse(stamp as string) / 1000} ${channel}`, value]),
    )
    const modem = textOf(fileNamed('memory_SK7103_20270517.txt'))
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split('|'))
    expect(radio.size).toBeGreaterThan(1200)
    expect(modem.length).toBeGreaterThanOrEqual(radio.size)
    let same = 0
    for (const [seconds, , channel, value] of modem) if (radio.get(`${seconds} ${channel}`) === value) same++
    expect(same).toBe(radio.size)
  })

  it('sends one file broken off inside a row and then whole', () => {
    const [first, second] = deliveries()
      .map(({ file }) => file as string)
      .filter((file) => file.endsWith('east_network_20270517.csv')) as [string, string]
    const [broken, whole] = [textOf(first), textOf(second)]
    expect(whole.startsWith(broken)).toBe(true)
    const cells = (line: string | undefined) => (line ?? '').split(',').length
    expect(cells(broken.split('\n').at(-1))).toBeLessThan(cells(whole.split('\n')[1]))
  })

  it('holds a day of a logger that is not registered', () => {
    const rows = textOf(fileNamed('dock_network_20270719.csv'))
      .split('\n')
      .filter((line) => line.includes(',SK7190,'))
    expect(rows).toHaveLength(24)
    expect(site.loggers.some(({ serial }) => serial === 'SK7190')).toBe(false)
  })
})
