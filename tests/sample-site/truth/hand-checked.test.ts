import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { generateSample } from '../../../sample-site/generate.ts'
import { parseRows } from '../../../sample-site/logging/read-records.ts'
import { readSampleSite, sampleFolder } from '../read-sample-site.ts'

const site = readSampleSite()
const outcome = readCalibrations(site)
const calibrations = new Map(
  (outcome.ok ? outcome.value : []).map((calibration) => [calibration.id, calibration]),
)
const rows = parseRows(readFileSync(`${sampleFolder}truth/hand-checked.csv`, 'utf8'))
const single = rows.filter(({ raw }) => raw !== '')
const numberOrNull = (text: string | undefined) => (text ? Number(text) : null)
const folder = mkdtempSync(join(tmpdir(), 'skarrow-'))

beforeAll(() => generateSample(folder))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('values worked by hand', () => {
  it('are at least twelve, over every kind of step', () => {
    expect(single.length).toBeGreaterThanOrEqual(12)
    const kinds = new Set(
      single.flatMap((row) => calibrations.get(row.calibration ?? '')?.steps.map(({ kind }) => kind) ?? []),
    )
    expect([...kinds].sort()).toEqual([
      'barometric',
      'callendar-van-dusen',
      'current-span',
      'frequency-squared',
      'gauge-length-sine',
      'linear',
      'period-to-frequency',
      'polynomial',
      'ratio-bridge',
      'steinhart-hart',
      'thermal',
      'voltage-span',
      'zero',
    ])
  })

  it.each(single.map((row) => [`${row.series} at ${row.at}`, row] as const))('%s: every step', (_, row) => {
    const calibration = calibrations.get(row.calibration ?? '')
    if (!calibration) throw new Error(`${row.calibration} is not a calibration of the site`)
    expect(calibration.sensor).toBe(row.series)
    const run = runChain(Number(row.raw), calibration.steps, {
      temperatureDegC: numberOrNull(row.temperatureDegC),
      barometerKpa: numberOrNull(row.barometerKpa),
    })
    run.lines.forEach(({ y }, i) => {
      const worked = Number(row[`step${i + 1}`])
      expect(Math.abs((y ?? Number.NaN) - worked), `step ${i + 1}`).toBeLessThan(
        2e-6 * Math.max(1, Math.abs(worked)),
      )
    })
    expect(Math.abs((run.value ?? Number.NaN) - Number(row.value))).toBeLessThan(
      2e-6 * Math.max(1, Math.abs(Number(row.value))),
    )
  })

  it.each(single.map((row) => [`${row.series} at ${row.at}`, row] as const))('%s: the raw cell', (_, row) => {
    expect(
      rawCell(row.file as string, row.logger as string, row.channel as string, Date.parse(row.at as string)),
    ).toBe(row.raw)
  })

  it('make the force of ST-02 the mean of its gauges, as written', () => {
    const gauges = rows
      .filter(({ series }) => /^ST-02-\d\/force$/.test(series ?? ''))
      .map(({ value }) => Number(value))
    const force = Number(rows.find(({ series }) => series === 'ST-02/force')?.value)
    expect(gauges).toHaveLength(4)
    expect(gauges.reduce((sum, value) => sum + value, 0) / 4).toBeCloseTo(force, 4)
  })

  it('make the settlement of EX-01-2 from the survey of its head, as written', () => {
    const handValue = (series: string) => Number(rows.find((row) => row.series === series)?.value)
    const bundles = derivedBundles(site)
    if (!bundles.ok) throw new Error(bundles.issues.map(({ message }) => message).join(' '))
    const bundle = bundles.value.find(({ outputs }) => outputs.some(({ id }) => id === 'EX-01-2/settlement'))
    if (!bundle) throw new Error('nothing makes the settlement of EX-01-2')
    const members = ['EX-01/settlement', 'EX-01-2/displacement'].map(
      (series) => [series, { value: handValue(series), quality: 0 }] as const,
    )
    const derived = deriveValues(bundle, new Map(members))
    const at = bundle.outputs.findIndex(({ id }) => id === 'EX-01-2/settlement')
    expect(derived[at]?.value).toBeCloseTo(handValue('EX-01-2/settlement'), 9)
  })

  it('make the deflection of IC-01 from both faces of its 26 intervals, as written', () => {
    const bundles = derivedBundles(site)
    const bundle =
      bundles.ok &&
      bundles.value.find(({ outputs }) => outputs.some(({ id }) => id === 'IC-01-05/deviation-a'))
    if (!bundle) throw new Error('nothing makes the deviations of IC-01')
    const at = Date.parse('2027-06-22T10:18:00Z')
    const members = bundle.slots.flatMap(({ series: [id = ''] }) => {
      const calibration = [...calibrations.values()].find(({ sensor }) => sensor === id)
      const channel = site.wiring.find(({ sensor }) => sensor === id)?.channel ?? ''
      const count = Number(rawCell('casing_20270622.csv', 'CASINGS', channel, at))
      const { value } = runChain(count, calibration?.steps ?? [], {
        temperatureDegC: null,
        barometerKpa: null,
      })
      return [[id, { value, quality: 0 }] as const]
    })
    expect(members).toHaveLength(2 * 26)
    const derived = deriveValues(bundle, new Map(members))
    for (const series of ['IC-01-05/deviation-a', 'IC-01/deflection']) {
      const worked = Number(rows.find((row) => row.series === series)?.value)
      const value = derived[bundle.outputs.findIndex(({ id }) => id === series)]?.value
      expect(value, series).toBeCloseTo(worked, 9)
    }
  })

  it('make the deflection ratio of SL-01 from the levels of its eight marks, as written', () => {
    const worked = rows.find(({ series }) => series === 'SL-01/deflection-ratio')
    const bundles = derivedBundles(site)
    const bundle = bundles.ok && bundles.value.find(({ instrument }) => instrument === 'SL-01')
    if (!bundle || !worked) throw new Error('nothing makes or works the deflection ratio of SL-01')
    const day = (worked.at ?? '').slice(0, 10)
    const members = bundle.slots.map(({ point, series: [id = ''] }, slot) => {
      const minute = String(2 + 2 * slot).padStart(2, '0')
      const level = rawCell(
        `levelling_20270825.csv`,
        'LEVELLING',
        point,
        Date.parse(`${day}T09:${minute}:00Z`),
      )
      const calibration = [...calibrations.values()].find(({ sensor }) => sensor === id)
      return [
        id,
        runChain(Number(level), calibration?.steps ?? [], { temperatureDegC: null, barometerKpa: null }),
      ] as const
    })
    const read = new Map(members.map(([id, { value }]) => [id, { value, quality: 0 }]))
    const at = bundle.outputs.findIndex(({ id }) => id === worked.series)
    expect(deriveValues(bundle, read)[at]?.value).toBeCloseTo(Number(worked.value), 9)
  })
})

/** The cell as the logger wrote it, found by the shape of the file. */
function rawCell(file: string, logger: string, channel: string, at: number): string | undefined {
  const serial = site.loggers.find(({ id }) => id === logger)?.serial as string
  const kind = file.split('_')[0] as string
  const iso = new Date(at).toISOString()
  const lines = (below: string, encoding: 'utf8' | 'latin1' = 'utf8') =>
    readFileSync(join(folder, 'raw', below, file), encoding).split(/\r?\n/)
  const wide = (
    table: string[],
    namesRow: number,
    delimiter: string,
    name: string,
    stamps: readonly string[],
  ) => {
    const index = (table[namesRow] as string).split(delimiter).indexOf(name)
    const found = table
      .map((line) => line.split(delimiter))
      .find((cells) => stamps.every((stamp, i) => cells[i] === stamp))
    return found?.[index]
  }
  const [year, month, day] = iso.slice(0, 10).split('-')
  switch (kind) {
    case 'east':
      return wide(lines('east'), 1, ',', `${serial}/${channel}`, [iso.slice(0, 19).replace('T', ' ')])
    case 'street':
      return wide(lines('street', 'latin1'), 2, ';', `${serial} ${channel}`, [
        `${day}.${month}.${year}`,
        iso.slice(11, 19),
      ])?.replace(',', '.')
    case 'terrace': {
      const summer = at >= Date.UTC(2027, 2, 28, 1) && at < Date.UTC(2027, 9, 31, 1)
      const local = new Date(at - (summer ? 0 : 3_600_000)).toISOString()
      const [localYear, localMonth, localDay] = local.slice(0, 10).split('-')
      return wide(lines('terrace'), 0, '\t', `${serial}:${channel}`, [
        `${localDay}/${localMonth}/${localYear} ${local.slice(11, 16)}`,
      ])
    }
    case 'dock':
      return lines('dock')
        .find((line) => line.startsWith(`${iso.slice(0, 19)}Z,${serial},${channel},`))
        ?.split(',')[3]
    case 'casing':
      return lines('rounds')
        .find((line) => line.startsWith(`${iso.slice(0, 10)} ${iso.slice(11, 16)},${channel},`))
        ?.split(',')[2]
    case 'levelling':
      return lines('rounds')
        .find((line) => line.startsWith(`${iso.slice(0, 10)},${iso.slice(11, 16)},${channel},`))
        ?.split(',')[3]
    default:
      return lines('rounds')
        .find((line) => line.startsWith(`${day}/${month}/${year} ${iso.slice(11, 16)},${channel},`))
        ?.split(',')[2]
  }
}
