import type { WatchedValue } from '#domain/alerts/episode.ts'
import { readRecipe } from '../slices/recipe.ts'
import { createSeriesNeeds } from '../slices/series-needs.ts'
import { valuesOfSeries } from '../slices/values-of-series.ts'
import type { Store } from '../store/store.ts'
import type { ValuesOf } from './try-levels.ts'

/** Past values as published, worked out from what the store holds now. A series that nothing gives is left out. */
export function valuesOfStore(store: Store): ValuesOf {
  return async ({ site, model, series, fromEpochMs, untilEpochMs, onValues }) => {
    const recipe = await readRecipe(store, site, model)
    const wanted = series.flatMap((id) => {
      const number = recipe.numberOf.get(id)
      return number === undefined ? [] : [{ id, number }]
    })
    const numbers = wanted.map(({ number }) => number)
    await valuesOfSeries({
      store,
      site,
      needed: createSeriesNeeds(recipe).neededBy(numbers),
      series: numbers,
      fromEpochMs,
      untilEpochMs,
      onValues(part) {
        const byId = new Map<string, readonly WatchedValue[]>()
        for (const { id, number } of wanted) {
          const values = part.get(number)
          if (values) byId.set(id, values)
        }
        onValues(byId)
      },
    })
  }
}
