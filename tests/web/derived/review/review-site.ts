import type { NetworkDocument } from '#contract/network-document.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { point, presentEpochMs, series, smallSite } from '../../state/small-site.ts'

const kpa = { unit: 'kPa', decimals: 2 }

/** Piezometers in two layers along a line, a mark and a tilt meter beside, weather and a dipped well; invented. */
export function reviewSite(more: readonly Series[] = []): SiteDocument {
  const site = smallSite()
  const at = (id: string, kind: Parameters<typeof point>[2], east: number, stratum: string | null = null) =>
    point(id, id, kind, east, 0, { stratum })
  const points = [
    at('P-1', 'piezometer', 0, 'sand'),
    at('P-2', 'piezometer', 1, 'clay'),
    at('P-3', 'piezometer', 2, 'sand'),
    at('P-4', 'piezometer', 3, 'sand'),
    at('P-5', 'piezometer', 20, 'sand'),
    at('M-1', 'settlement-point', 1),
    at('W-1', 'standpipe', 1, 'sand'),
    at('B-1', 'barometer', 9),
    at('T-1', 'air-temperature', 9),
  ]
  const list: Series[] = [
    series(1, 'P-1/pore-pressure', kpa),
    series(2, 'P-2/pore-pressure', kpa),
    series(3, 'P-3/pore-pressure', kpa),
    series(4, 'P-4/pore-pressure', { ...kpa, unit: 'm' }),
    series(5, 'P-5/pore-pressure', kpa),
    series(6, 'M-1/settlement'),
    series(7, 'W-1/water-level', { unit: 'm', intervalMinutes: 10_080, standardUncertainty: 0.01 }),
    series(8, 'B-1/barometric-pressure', kpa),
    series(9, 'T-1/temperature', { unit: 'degC' }),
    series(10, 'P-1/temperature', { unit: 'degC' }),
    ...more,
  ]
  const [like] = site.instruments
  if (!like) throw new Error('a small site has an instrument')
  return {
    ...site,
    points,
    series: list,
    instruments: points.map(({ id, kind }) => ({ ...like, id, kind, location: id, points: [id] })),
    loggers: [
      { id: 'L-1', kind: 'logger', location: null },
      { id: 'HAND', kind: 'manual', location: null },
    ] as unknown as SiteDocument['loggers'],
  }
}

/** Wired to L-1 but for the well, which people read. */
export function reviewNetwork(site: SiteDocument): NetworkDocument {
  const wired = (own: readonly Series[]) =>
    own.map(({ id }) => ({ channel: id, series: id, critical: false }))
  const day = 86_400_000
  const facts = {
    intervalMinutes: 60,
    lateAfterMinutes: 180,
    lastStampEpochMs: presentEpochMs,
    lastReceivedEpochMs: presentEpochMs,
    routes: [],
    consequence: { channels: 0, criticalChannels: 0, dependants: 0 },
  }
  return {
    site: 'small',
    revision: 1,
    asOfEpochMs: presentEpochMs,
    fromEpochMs: presentEpochMs - 30 * day,
    loggers: [
      {
        ...facts,
        logger: 'L-1',
        kind: 'logger',
        wiredChannels: wired(site.series.filter(({ id }) => !id.startsWith('W-'))),
        days: Array.from({ length: 20 }, (_, i) => ({
          dayEpochMs: presentEpochMs - (20 - i) * day,
          due: 24,
          held: 24,
          inTime: 12,
          leastDelaySeconds: 30,
          medianDelaySeconds: 40,
        })),
      },
      {
        ...facts,
        logger: 'HAND',
        kind: 'manual',
        wiredChannels: wired(site.series.filter(({ id }) => id.startsWith('W-'))),
        days: [],
      },
    ],
  } as unknown as NetworkDocument
}
