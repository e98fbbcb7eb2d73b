import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { monthsBetween } from '../../../api/slices/months.ts'
import { type Recipe, readRecipe } from '../../../api/slices/recipe.ts'
import { createSeriesNeeds, type SeriesNeeds } from '../../../api/slices/series-needs.ts'
import { type SeriesValue, valuesOfSeries } from '../../../api/slices/values-of-series.ts'
import { openSampleStore, type SampleStore } from '../../support/open-sample-store.ts'
import { publishedReadings } from '../../support/published-sample.ts'

const site = 'skarrow-quay'
const published = ['2027-03', '2027-07']

/** One or more of every kind of chain and of every rule that the sample derives series by. */
const asked = [
  'PZ-01A/pore-pressure',
  'PZ-02B/pore-pressure',
  'PZ-02B2/pore-pressure',
  'PZ-05C/temperature',
  'EX-01-2/displacement',
  'EX-01/settlement',
  'EX-04/settlement',
  'IP-02-05/inclination-a',
  'IP-02/deflection',
  'IC-01/deflection',
  'ST-05-1/force',
  'ST-05/force',
  'TL-11/tilt',
  'CR-05/opening',
  'SP-31/settlement',
  'SL-01/deflection-ratio',
  'BA-01/barometric-pressure',
]

let sample: SampleStore
let recipe: Recipe
let needs: SeriesNeeds
let engine: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  sample = await openSampleStore()
  const { store } = sample
  const model = await store.getSite(site)
  if (!model) throw new Error('no sample site')
  recipe = await readRecipe(store, site, model)
  needs = createSeriesNeeds(recipe)
  const fileOf = await publishedReadings(sample)
  engine = await (await DuckDBInstance.create(':memory:')).connect()
  for (const month of published) await engine.run(`attach '${fileOf(month)}' as "${month}" (read_only)`)
})
afterAll(() => sample.close())

async function valuesIn(ids: readonly string[], fromEpochMs: number, untilEpochMs: number) {
  const series = ids.map((id) => recipe.numberOf.get(id) as number)
  const values = new Map<number, SeriesValue[]>()
  await valuesOfSeries({
    store: sample.store,
    site,
    needed: needs.neededBy(series),
    series,
    fromEpochMs,
    untilEpochMs,
    onValues: (part) => {
      for (const [one, own] of part) values.set(one, [...(values.get(one) ?? []), ...own])
    },
  })
  return values
}

async function publishedIn(id: string, month: string): Promise<SeriesValue[]> {
  const reader = await engine.runAndReadAll(
    `select epoch_ms("at")::double, received_after_s, value from "${month}".value
     where series = ${recipe.numberOf.get(id)} order by "at"`,
  )
  return reader.getRows().map(([at, after, value]) => ({
    atEpochMs: Number(at),
    receivedAtEpochMs: after === null ? Number.NaN : Number(at) + Number(after) * 1000,
    value: value === null ? null : Number(value),
  }))
}

it.each(published)(
  'gives every value of %s as it is published, each kind asked for by itself',
  async (month) => {
    const [{ fromEpochMs, untilEpochMs } = { fromEpochMs: 0, untilEpochMs: 0 }] = monthsBetween(
      Date.parse(`${month}-01T00:00:00Z`),
      Date.parse(`${month}-01T00:00:00Z`),
    )
    let compared = 0
    for (const id of asked) {
      const made =
        (await valuesIn([id], fromEpochMs, untilEpochMs)).get(recipe.numberOf.get(id) as number) ?? []
      const expected = await publishedIn(id, month)
      expect(
        made.map(({ atEpochMs, value }) => [atEpochMs, value]),
        id,
      ).toEqual(expected.map(({ atEpochMs, value }) => [atEpochMs, value]))
      // Slices keep the receipt only where it came more than a quarter of an hour after the reading.
      for (const [at, one] of made.entries()) {
        const receipt = expected[at]?.receivedAtEpochMs ?? Number.NaN
        if (!Number.isNaN(receipt)) expect(one.receivedAtEpochMs).toBe(receipt)
      }
      compared += made.length
    }
    expect(compared).toBeGreaterThan(8000)
  },
)

it('gives the same values whether asked for the whole stretch, month by month, or from any instant on', async () => {
  const ids = ['EX-01/settlement', 'ST-05/force', 'PZ-01A/pore-pressure', 'SL-01/deflection-ratio']
  const whole = await valuesIn(ids, 0, Number.MAX_SAFE_INTEGER)
  const from = Date.UTC(2027, 6, 13, 5, 30)
  const late = await valuesIn(ids, from, from + 20 * 86_400_000)
  for (const id of ids) {
    const series = recipe.numberOf.get(id) as number
    const inside = (whole.get(series) ?? []).filter(
      ({ atEpochMs }) => atEpochMs >= from && atEpochMs < from + 20 * 86_400_000,
    )
    expect(inside.length).toBeGreaterThan(1)
    expect(late.get(series)).toEqual(inside)
    expect(whole.get(series)?.map(({ atEpochMs }) => atEpochMs)).toEqual(
      (whole.get(series) ?? []).map(({ atEpochMs }) => atEpochMs).toSorted((one, other) => one - other),
    )
  }
})

it('needs for a series what it hangs on, and nothing else', () => {
  const number = (id: string) => recipe.numberOf.get(id) as number
  const idOf = new Map([...recipe.numberOf].map(([id, series]) => [series, id]))
  const linked = (id: string) =>
    new Set(needs.neededBy([number(id)]).links.map(({ series }) => idOf.get(series)))
  expect(linked('PZ-01A/pore-pressure')).toEqual(
    new Set(['PZ-01A/pore-pressure', 'PZ-01A/temperature', 'BA-01/barometric-pressure']),
  )
  expect(linked('CR-05/opening')).toEqual(new Set(['CR-05/opening']))
  expect(linked('EX-01/settlement').has('SP-31/settlement')).toBe(false)
  expect([...linked('EX-01/settlement')].filter((id) => id?.endsWith('/settlement'))).toEqual([
    'EX-01/settlement',
  ])
})

it('finds what hangs on a reading of a channel: corrected, and made of it', async () => {
  const channels = await sample.store.listChannels(site)
  const model = await sample.store.getSite(site)
  const idOf = new Map([...recipe.numberOf].map(([id, series]) => [series, id]))
  const hangingOn = (sensor: string, at: number) => {
    const wire = model?.wiring.find(
      (one) => one.sensor === sensor && one.fromAt <= at && (one.untilAt ?? Infinity) > at,
    )
    const { channel } =
      channels.find(({ logger, name }) => logger === wire?.logger && name === wire?.channel) ?? {}
    return [...needs.hangingOn(channel ?? -1, at, at + 1)].map((series) => idOf.get(series) ?? '')
  }
  const at = Date.UTC(2027, 6, 1)
  const onAir = hangingOn('BA-01/barometric-pressure', at)
  expect(onAir).toContain('PZ-01A/pore-pressure')
  expect(onAir).toContain('PZ-05C/pore-pressure')
  expect(onAir).not.toContain('CR-05/opening')
  expect(hangingOn('ST-05-1/force', at)).toContain('ST-05/force')
  expect(hangingOn('SP-33/settlement', at)).toContain('SL-01/deflection-ratio')
  expect(hangingOn('CR-05/opening', at)).toEqual(['CR-05/opening'])
})

it('changes the hash of what a calibration is for, and of nothing else', async () => {
  const model = await sample.store.getSite(site)
  if (!model) throw new Error('no sample site')
  const own = model.calibrations.find(({ sensor }) => sensor === 'ST-05-1/force')
  const changed = createSeriesNeeds(
    await readRecipe(sample.store, site, {
      ...model,
      calibrations: model.calibrations.map((one) =>
        one === own ? { ...one, validFrom: one.validFrom + 3_600_000 } : one,
      ),
    }),
  )
  const differs = (id: string) => {
    const series = recipe.numberOf.get(id) as number
    return changed.hashOf(series) !== needs.hashOf(series)
  }
  expect(differs('ST-05-1/force')).toBe(true)
  expect(differs('ST-05/force')).toBe(true)
  expect(differs('ST-06/force')).toBe(false)
  expect(differs('PZ-01A/pore-pressure')).toBe(false)
})
