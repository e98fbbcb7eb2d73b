import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { layoutSchema } from '#contract/layout.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { parseRows, readRecords } from '../../../sample-site/logging/read-records.ts'
import { readSampleSite, sampleFolder } from '../read-sample-site.ts'

const site = readSampleSite()

describe('records of the sample site', () => {
  it('are invented and say so', () => {
    expect(site.facts.invented).toBe(true)
    expect(site.facts.watermark).toBe('invented data')
    expect(site.facts.presentEpochMs).toBe(Date.UTC(2027, 9, 31, 22))
  })

  it('hold every instrument that the site should have', () => {
    const count = (kind: string) => site.instruments.filter((instrument) => instrument.kind === kind).length
    const points = (pattern: RegExp) => site.points.filter(({ id }) => pattern.test(id)).length
    expect(points(/^PZ-0[1-6][ABC]$/)).toBe(18)
    expect(site.points.find(({ id }) => id === 'PZ-02B2')?.replaces).toBe('PZ-02B')
    expect(count('standpipe')).toBe(4)
    expect(points(/^EX-0[1-4]-[1-4]$/)).toBe(16)
    expect(count('settlement-point')).toBe(56)
    expect(points(/^IP-0[1-4]-\d\d$/)).toBe(44)
    expect(points(/^IC-01-\d\d$/)).toBe(26)
    expect(count('tiltmeter')).toBe(12)
    expect(count('crack-meter')).toBe(10)
    expect(points(/^ST-0[1-8]-[1-4]$/)).toBe(32)
    expect([count('rain-gauge'), count('barometer'), count('air-temperature'), count('tide-gauge')]).toEqual([
      1, 2, 1, 1,
    ])
    expect(site.loggers.map(({ kind }) => kind).sort()).toEqual([
      ...Array(26).fill('logger'),
      'manual',
      'survey',
      'survey',
    ])
    expect(site.gateways.map(({ id }) => id)).toEqual(['GW-1', 'GW-2', 'GW-3'])
  })

  it('wire and calibrate every sensor, from no later than its wiring', () => {
    const wiredFrom = new Map<string, number>()
    for (const { sensor, fromAt } of site.wiring)
      wiredFrom.set(sensor, Math.min(fromAt, wiredFrom.get(sensor) ?? Number.POSITIVE_INFINITY))
    for (const { id } of site.sensors) {
      const first = site.calibrations.find(({ sensor, version }) => sensor === id && version === 1)
      expect(wiredFrom.get(id), id).toBeDefined()
      expect(first?.validFrom, id).toBeLessThanOrEqual(wiredFrom.get(id) ?? 0)
    }
  })

  it('have chains whose units join from the raw reading to the engineering value', () => {
    const outcome = readCalibrations(site)
    expect(outcome.ok ? [] : outcome.issues.slice(0, 5)).toEqual([])
  })

  it('give tips the levels that the design asks for', () => {
    const places = readRecords(sampleFolder).placeOfPoint
    for (const hole of ['PZ-01', 'PZ-02', 'PZ-03', 'PZ-04', 'PZ-05', 'PZ-06'])
      for (const [tip, level] of [
        ['A', -1],
        ['B', -7.4],
        ['C', -14],
      ] as const)
        expect(Math.abs((places.get(hole + tip)?.levelMetres ?? 0) - level), hole + tip).toBeLessThan(0.06)
  })

  it('name a second person, an owner and an action at every trigger level', () => {
    expect(site.triggerLevels.length).toBeGreaterThan(150)
    for (const row of site.triggerLevels) expect(row.author).not.toBe(row.approver)
    const of = (series: string) =>
      site.triggerLevels
        .filter((row) => row.series === series && row.watches == null)
        .map(({ value }) => value)
    expect(of('SP-31/settlement')).toEqual([8, 12])
    expect(of('SP-06/settlement')).toEqual([22, 28])
    expect(of('TL-11/tilt')).toEqual([0.057, 0.115])
    expect(of('ST-02/force')).toEqual([2300, 2800])
  })

  it('hold layouts that the contract takes, each under its own name', () => {
    for (const file of readdirSync(`${sampleFolder}layouts`)) {
      const layout = layoutSchema.parse(JSON.parse(readFileSync(`${sampleFolder}layouts/${file}`, 'utf8')))
      expect(`${layout.id}.json`).toBe(file)
    }
  })
})

describe('parseRows', () => {
  it('takes quoted cells with commas and doubled quotation marks', () => {
    expect(parseRows('a,b,c\n1,"x, ""y""",\n')).toEqual([{ a: '1', b: 'x, "y"', c: '' }])
  })
})
