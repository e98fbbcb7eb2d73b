import { expect, test } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { reviewNetwork, reviewSite } from '../../../web/derived/review/review-site.ts'
import { series } from '../../../web/state/small-site.ts'

const companions = (
  id: string,
  { barriers = [], more = [] }: { barriers?: [number, number][][]; more?: readonly Series[] } = {},
) => {
  const site = reviewSite(more)
  const subject = site.series.find((one) => one.id === id) as Series
  const network = reviewNetwork(site)
  return companionsOf(site, subject, { network, barriers, waterUnitWeightKnPerM3: 9.81 })
}
const ids = (placed: readonly { series: { id: string } }[]) => placed.map((one) => one.series.id)

test('the same quantity stands nearest first, that of its layer before others; another unit and what is far off are left out', () => {
  const { same } = companions('P-1/pore-pressure')
  expect(ids(same)).toEqual(['P-3/pore-pressure', 'P-2/pore-pressure'])
  expect(same.map(({ sameStratum }) => sameStratum)).toEqual([true, false])
  expect(same[0]?.distanceMetres).toBeCloseTo(20, 6)
})

test('across a wall nothing is beside it', () => {
  const wall: [number, number][] = [
    [500_015, 309_900],
    [500_015, 310_100],
  ]
  expect(ids(companions('P-1/pore-pressure', { barriers: [wall] }).same)).toEqual(['P-2/pore-pressure'])
})

test('another quantity within reach, what is read by hand in its unit, the logger and its other channels', () => {
  const found = companions('P-1/pore-pressure')
  expect(ids(found.other)).toEqual(['M-1/settlement'])
  expect(found.byHand).toMatchObject([{ factor: 9.81 }])
  expect(ids(found.byHand)).toEqual(['W-1/water-level'])
  expect(found.logger).toBe('L-1')
  expect(found.ofLogger.length).toBeGreaterThan(0)
  expect(found.ofLogger.map(({ id }) => id)).not.toContain('P-1/pore-pressure')
  expect(found.ofLogger.every(({ measure }) => measure !== 'temperature')).toBe(true)
})

test('its own temperature, the air and the barometer may drive it; the weather is not weighed against itself', () => {
  const kinds = companions('P-1/pore-pressure').drivers.map(({ kind, series }) => `${kind} ${series.id}`)
  expect(kinds.sort()).toEqual([
    'air-pressure B-1/barometric-pressure',
    'air-temperature T-1/temperature',
    'own-temperature P-1/temperature',
  ])
  expect(companions('B-1/barometric-pressure').drivers).toEqual([])
})

test('checksums of its own casing come along, not of the checksums themselves', () => {
  const more = [series(20, 'P-1/checksum-a'), series(21, 'P-3/checksum-a'), series(22, 'P-1/deflection')]
  expect(companions('P-1/deflection', { more }).checksums.map(({ id }) => id)).toEqual(['P-1/checksum-a'])
  expect(companions('P-1/checksum-a', { more }).checksums).toEqual([])
})

test('a made series is held against made ones only, its logger is that of its members', () => {
  const more = [series(30, 'P-1/settlement', { made: true }), series(31, 'P-3/settlement', { made: true })]
  const found = companions('P-1/settlement', { more })
  expect(ids(found.same)).toEqual(['P-3/settlement'])
  expect(found.logger).toBe('L-1')
})

test('a channel that is wired to nothing any more belongs to the logger of its instrument', () => {
  const site = reviewSite()
  const network = reviewNetwork(site)
  const [logger] = network.loggers
  const without = logger?.wiredChannels.filter((one) => one.series !== 'P-1/pore-pressure') ?? []
  const loggers = network.loggers.map((one, i) => (i === 0 ? { ...one, wiredChannels: without } : one))
  const subject = site.series[0] as Series
  const around = { network: { loggers }, barriers: [], waterUnitWeightKnPerM3: 9.81 }
  expect(companionsOf(site, subject, around).logger).toBe('L-1')
  expect(companionsOf(site, subject, { ...around, network: null }).logger).toBeNull()
})
