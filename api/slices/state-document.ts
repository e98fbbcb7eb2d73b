import type { Series } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { seriesState } from '#domain/levels/series-state.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Latest, SliceIndex } from './slice-index.ts'

/** The state of every series as of an instant, from the last values that the index keeps by month. */
export function buildStateDocument(
  model: SiteModel,
  series: readonly Series[],
  index: SliceIndex,
  asOfEpochMs: number,
): StateDocument {
  const last = lastBySeries(index)
  const levels = new Map<string, TriggerLevel[]>()
  for (const level of valueLevels(model.triggerLevels, model.stages))
    levels.set(level.series, [...(levels.get(level.series) ?? []), level])
  return {
    site: model.facts.id,
    revision: index.revision,
    asOfEpochMs,
    states: series.map((one) =>
      seriesState({
        series: one.series,
        last: last.get(one.series) ?? null,
        levels: levels.get(one.id) ?? [],
        asOfEpochMs,
        lateAfterMinutes: one.lateAfterMinutes,
      }),
    ),
  }
}

function lastBySeries(index: SliceIndex): ReadonlyMap<number, Latest> {
  const last = new Map<number, Latest>()
  for (const month of Object.values(index.months))
    for (const candidate of month.latest) {
      const known = last.get(candidate.series)
      if (!known || candidate.atEpochMs > known.atEpochMs) last.set(candidate.series, candidate)
    }
  return last
}
