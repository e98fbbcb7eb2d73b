import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { RawAnswer } from '#contract/raw-readings.ts'
import { offeredCorrections } from '#domain/corrections/offered-corrections.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import { unpackReadings } from '#domain/what-if/unpack-readings.ts'
import { rawAnswer } from '../../../api/slices/raw-answer.ts'
import { type Recipe, readRecipe } from '../../../api/slices/recipe.ts'
import { newChange } from '../../../web/panels/what-if/new-change.ts'
import { openSampleStore, type SampleStore } from '../../support/open-sample-store.ts'
import { publishedReadings } from '../../support/published-sample.ts'

const site = 'skarrow-quay'
const months = ['2027-03', '2027-07']

let sample: SampleStore
let recipe: Recipe
let engine: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  sample = await openSampleStore()
  const { store } = sample
  const model = await store.getSite(site)
  if (!model) throw new Error('no sample site')
  recipe = await readRecipe(store, site, model)
  const fileOf = await publishedReadings(sample)
  engine = await (await DuckDBInstance.create(':memory:')).connect()
  for (const month of months) await engine.run(`attach '${fileOf(month)}' as "${month}" (read_only)`)
})
afterAll(() => sample.close())

async function sampleModel(): Promise<SiteModel> {
  const model = await sample.store.getSite(site)
  if (!model) throw new Error('no sample site')
  return model
}

async function answerOf(
  series: readonly string[],
  month: string,
  by: { readonly model?: SiteModel; readonly recipe?: Recipe } = {},
): Promise<RawAnswer> {
  const [fromEpochMs, untilEpochMs] = spanOf(month)
  const model = by.model ?? (await sampleModel())
  const revision = await sample.store.revision(site)
  const made = await rawAnswer({
    store: sample.store,
    site,
    model,
    recipe: by.recipe ?? recipe,
    revision,
    series,
    fromEpochMs,
    untilEpochMs,
  })
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  // As it goes over the wire.
  return JSON.parse(JSON.stringify(made.value)) as RawAnswer
}

const spanOf = (month: string): readonly [number, number] => {
  const [year = 0, number = 1] = month.split('-').map(Number)
  return [Date.UTC(year, number - 1, 1), Date.UTC(year, number, 1)]
}

test.each(months)(
  'with nothing changed every series of the sample comes out as published in %s',
  async (month) => {
    const [fromEpochMs, untilEpochMs] = spanOf(month)
    const differing: string[] = []
    let compared = 0
    const kinds = new Set<string>()
    for (let first = 0; first < recipe.series.length; first += 150) {
      const asked = recipe.series.slice(first, first + 150)
      const answer = await answerOf(
        asked.map(({ id }) => id),
        month,
      )
      const reduced = reduceRaw(
        answer.recipe,
        unpackReadings(answer.channels, answer.fromEpochMs, answer.recipe),
        fromEpochMs,
        untilEpochMs,
      )
      const reader = await engine.runAndReadAll(`
      select series, epoch_us("at")::double / 1e3, value, quality::integer from "${month}".value
      where series in (${asked.map(({ series }) => series).join(', ')}) order by series, "at"`)
      const published = new Map<number, (number | null)[][]>()
      for (const row of reader.getRows() as (number | null)[][])
        published.set(Number(row[0]), [...(published.get(Number(row[0])) ?? []), row])
      for (const one of asked) {
        const own = reduced.get(one.id)
        const rows = [...(own?.atEpochMs ?? [])].map((at, index) => [
          one.series,
          at,
          Number.isNaN(own?.value[index]) ? null : (own?.value[index] as number),
          own?.quality[index] as number,
        ])
        const others = published.get(one.series) ?? []
        compared += others.length
        if (others.length > 0) kinds.add(one.measure)
        const wrong = Math.max(rows.length, others.length) === 0 ? -1 : firstDifference(rows, others)
        if (wrong >= 0)
          differing.push(
            `${one.id} row ${wrong} of ${others.length}: ${rows[wrong]} against ${others[wrong]}`,
          )
      }
    }
    expect(differing).toEqual([])
    expect(compared).toBeGreaterThan(100_000)
    // Sensors of every kind of chain, and what is made of them by every rule.
    for (const measure of [
      'pore-pressure',
      'temperature',
      'barometric-pressure',
      'inclination-a',
      'tilt',
      'opening',
      'displacement',
      'settlement',
      'water-level',
      'rainfall',
      'deflection',
      'hydraulic-gradient',
      'deflection-ratio',
      'strain',
    ])
      expect([...kinds]).toContain(measure)
  },
  120_000,
)

test('a sensor whose chain takes no air off comes with the barometer of each time, in case a sandbox asks', async () => {
  const tip = 'PZ-01A/pore-pressure'
  const [first, second] = ['BA-01/barometric-pressure', 'BA-02/barometric-pressure']
  const changed = Date.UTC(2027, 6, 10)
  const whole = await sampleModel()
  const own = new Set(whole.calibrations.filter(({ sensor }) => sensor === tip).map(({ id }) => id))
  const model: SiteModel = {
    ...whole,
    calibrationSteps: whole.calibrationSteps.filter(
      ({ calibration, kind }) => !(own.has(calibration) && kind === 'barometric'),
    ),
    sensorBarometers: [
      { sensor: tip, version: 1, validFrom: changed, barometer: second, author: 'A. Reed', reason: 'nearer' },
    ],
  }
  const airless = await readRecipe(sample.store, site, model)
  const answer = await answerOf([tip], '2027-07', { model, recipe: airless })
  const links = answer.recipe.links.filter(({ series }) => series === tip)
  expect(
    links.map(({ barometerSeries, fromEpochMs, untilEpochMs }) => [
      barometerSeries,
      fromEpochMs === changed,
      untilEpochMs === changed,
    ]),
  ).toEqual([
    [first, false, true],
    [second, true, false],
  ])
  expect(links[0]?.steps).toEqual(links[1]?.steps)
  // A term that takes the second one off is no other barometer than the record has from then on.
  const span = spanOf('2027-07')
  const standing = {
    recipe: answer.recipe,
    readings: unpackReadings(answer.channels, answer.fromEpochMs, answer.recipe),
  }
  const change = newChange('barometer', {
    recipe: answer.recipe,
    series: tip,
    official: undefined,
    fromEpochMs: changed,
  })
  expect(change).toMatchObject({ barometer: second, untilEpochMs: null })
  const { recipe: tried, faults } = runSandbox(
    standing,
    [{ ...change, referenceKpa: 101 } as typeof change],
    ...span,
  )
  expect(faults).toEqual([])
  expect(offeredCorrections(answer.recipe, tried, [change]).changes.map(({ kind }) => kind)).toEqual([
    'calibration',
  ])
})

function firstDifference(
  rows: readonly (readonly (number | null)[])[],
  others: readonly (readonly (number | null)[])[],
): number {
  for (let at = 0; at < Math.max(rows.length, others.length); at++)
    if (rows[at]?.some((cell, column) => cell !== others[at]?.[column]) ?? true) return at
  return -1
}
