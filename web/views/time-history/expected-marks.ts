import type { Series, SiteDocument } from '#contract/site-document.ts'
import { predictionsInForce } from '#domain/levels/predictions-in-force.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { withUnit } from '../../ui/format-value.ts'
import { line, type Mark, path } from '../marks/mark.ts'
import { type HistoryLayout, type Pane, toX, toY } from './history-layout.ts'
import type { HistoryExpected, TimeHistoryProps } from './history-props.ts'

/**
 * What the design expects of a series by the ends of stages: of the instrument as a whole, or at the depth of its point.
 * Of several versions the last one stands.
 */
export function expectedOf(
  document: Pick<SiteDocument, 'predictions' | 'stages' | 'points' | 'facts'>,
  series: Series,
): readonly HistoryExpected[] {
  const point = document.points.find(({ id }) => id === series.point)
  const instrument = point?.instrument ?? series.point
  const depthOf = point && point.id !== instrument ? point.depthMetres : null
  return document.stages.flatMap((stage) => {
    if (stage.endsAt === null) return []
    const found = predictionsInForce(document.predictions, [stage], {
      instrument,
      measure: series.measure,
      atEpochMs: Number.POSITIVE_INFINITY,
    })
    const own = found?.predictions.find(({ depthMetres }) =>
      depthMetres === null || depthOf === null
        ? depthMetres === null
        : Math.abs(depthMetres - depthOf) < 0.01,
    )
    if (!own) return []
    const text = (value: number) => withUnit(String(value).replace('-', '−'), series.unit)
    return [
      {
        atEpochMs: stage.endsAt,
        low: own.low,
        high: own.high,
        sentence: `${series.point}: ${text(own.low)} to ${text(own.high)} expected by the end of “${stage.name}”, ${formatShortInstant(stage.endsAt, document.facts.timeZone)} (${own.source}).`,
      },
    ]
  })
}

/** An upright bar with feet at the end of each stage, from the least to the most that is expected by then. */
export function expectedMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark[] {
  const [x, y] = [toX(layout, props), toY(pane)]
  const foot = layout.fontPixels * 0.5
  return pane.series.flatMap(({ expected = [] }) =>
    expected.flatMap(({ atEpochMs, low, high, sentence }) => {
      if (atEpochMs < props.fromEpochMs || atEpochMs > props.untilEpochMs) return []
      if (low > pane.extent.high || high < pane.extent.low) return []
      const at = x(atEpochMs)
      const [base, top] = [y(Math.max(low, pane.extent.low)), y(Math.min(high, pane.extent.high))]
      const feet = [
        ...(low < pane.extent.low ? [] : [line('expected', at - foot, base, at + foot, base)]),
        ...(high > pane.extent.high ? [] : [line('expected', at - foot, top, at + foot, top)]),
      ]
      return [path('expected', `M${at.toFixed(1)} ${base.toFixed(1)}V${top.toFixed(1)}`, sentence), ...feet]
    }),
  )
}
