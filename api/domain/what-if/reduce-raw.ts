import { assert } from '../assert.ts'
import { groupBy } from '../group-by.ts'
import { deriveMade } from './derive-made.ts'
import { type CompanionValues, reduceSensor } from './reduce-sensor.ts'
import { entriesOf, firstAtOrAfter, type ReducedSeries } from './reduced-series.ts'
import { roundAsPublished } from './round-as-published.ts'
import type { RawReadings, SandboxRecipe } from './sandbox-recipe.ts'

/**
 * Raw readings as the values of every series of a recipe, sensors and made ones, as they would be published: from
 * inclusive, until exclusive, rounded to the decimals of each. Readings from before count as companions and surveys.
 */
export function reduceRaw(
  { links, bundles }: Pick<SandboxRecipe, 'links' | 'bundles'>,
  readings: RawReadings,
  fromEpochMs: number,
  untilEpochMs: number,
): ReadonlyMap<string, ReducedSeries> {
  const linksOf = groupBy(links, ({ series }) => series)
  const reduced = new Map<string, ReducedSeries>()
  const companions = new Map<string, CompanionValues>()
  const underWay = new Set<string>()
  const reduce = (series: string): ReducedSeries => {
    const known = reduced.get(series)
    if (known) return known
    assert(!underWay.has(series), `${series} is a companion of itself`)
    underWay.add(series)
    const made = reduceSensor(linksOf.get(series) ?? [], readings, companionOf)
    underWay.delete(series)
    reduced.set(series, made)
    return made
  }
  const companionOf = (series: string): CompanionValues => {
    const known = companions.get(series)
    if (known) return known
    const values = withValue(reduce(series))
    companions.set(series, values)
    return values
  }
  for (const series of linksOf.keys()) reduce(series)
  for (const bundle of bundles)
    for (const [id, made] of deriveMade(bundle, reduced)) if (!reduced.has(id)) reduced.set(id, made)
  return new Map(
    [...reduced].map(([id, series]) => {
      const first = firstAtOrAfter(series.atEpochMs, fromEpochMs)
      const shown = entriesOf(series, first, firstAtOrAfter(series.atEpochMs, untilEpochMs))
      return [id, { ...shown, value: shown.value.map((value) => roundAsPublished(value, series.decimals)) }]
    }),
  )
}

function withValue({ atEpochMs, value }: ReducedSeries): CompanionValues {
  const kept: { atEpochMs: number[]; value: number[] } = { atEpochMs: [], value: [] }
  for (let at = 0; at < atEpochMs.length; at++) {
    const one = value[at] as number
    if (Number.isNaN(one)) continue
    kept.atEpochMs.push(atEpochMs[at] as number)
    kept.value.push(one)
  }
  return kept
}
