import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { createAnswer } from '../create-answer.ts'

/**
 * Holds the official series, as it is worked out here from raw readings, against the published slices in the engine: a
 * sandbox that does not reproduce what is published is not to be believed, and says so.
 */
export function createPublishedCheck(
  series: () => Series | null,
  official: () => ReducedSeries | null,
  stretch: () => { readonly fromEpochMs: number; readonly untilEpochMs: number } | null,
) {
  const asked = createAnswer(() => {
    const [on, over] = [series(), stretch()]
    return on && over
      ? timeHistory({
          ...over,
          widthPixels: 1,
          intervalMinutes: on.intervalMinutes,
          series: [on.series],
          resolution: 'raw',
        })
      : null
  })
  const differing = createMemo(() => {
    const [answer, own, over] = [asked.answer(), official(), stretch()]
    if (!answer || !own || !over || asked.waiting()) return null
    const published = new Map<number, number>()
    const [at, value] = [answer.columns.number('at_ms'), answer.columns.number('value')]
    for (let row = 0; row < at.length; row++) published.set(at[row] as number, value[row] as number)
    let [count, unlike] = [0, 0]
    for (let row = 0; row < own.atEpochMs.length; row++) {
      const other = published.get(own.atEpochMs[row] as number)
      count++
      if (other === undefined || !Object.is(other + 0, (own.value[row] as number) + 0)) unlike++
    }
    return { count, unlike }
  })
  return {
    remarks: asked.remarks,
    /** Null until both are there. */
    sentence: () => {
      const found = differing()
      if (!found) return null
      return found.unlike === 0
        ? `With nothing changed the ${found.count} readings come out as published, to the last decimal.`
        : `${found.unlike} of ${found.count} readings do not come out as published: what is published may lag behind its records. Do not rest a judgement on this sandbox until they agree.`
    },
    isTrue: () => (differing()?.unlike ?? 0) === 0,
  }
}
