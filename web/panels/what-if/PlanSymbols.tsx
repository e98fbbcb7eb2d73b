import type { Series } from '#contract/site-document.ts'
import { seriesState } from '#domain/levels/series-state.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { palette } from '../../state/theme.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { KindSymbol } from '../../ui/KindSymbol.tsx'
import { standingName, standingOf } from '../../ui/state-scale.ts'

/** The point as the plan draws it at the clock: officially and in the sandbox. */
export function PlanSymbols(props: {
  series: Series
  official: ReducedSeries
  sandbox: ReducedSeries
  asOfEpochMs: number
}) {
  const kind = () =>
    siteLookup().pointById.get(props.series.point)?.kind ??
    siteLookup().instrumentById.get(props.series.point)?.kind
  const stateOf = (values: ReducedSeries) => {
    const at = values.value.findLastIndex((value) => !Number.isNaN(value))
    const document = siteDocument()
    const atEpochMs = values.atEpochMs[at] ?? null
    return seriesState({
      series: props.series.series,
      last:
        atEpochMs === null
          ? null
          : {
              atEpochMs,
              receivedAtEpochMs: atEpochMs + (values.receivedAfterSeconds[at] ?? 0) * 1000,
              value: values.value[at] ?? null,
              quality: values.quality[at] ?? 0,
              flags: 0,
            },
      levels: document
        ? valueLevels(document.triggerLevels, document.stages).filter(
            ({ series }) => series === props.series.id,
          )
        : [],
      asOfEpochMs: props.asOfEpochMs,
      lateAfterMinutes: props.series.lateAfterMinutes,
    })
  }
  const one = (name: string, values: () => ReducedSeries) => {
    const state = () => stateOf(values())
    const names = () => siteDocument()?.facts.levelNames ?? []
    return (
      <li>
        <KindSymbol
          kind={kind() ?? 'piezometer'}
          standing={standingOf(state())}
          share={state().shareOfFirstLevel}
          partLate={false}
          levels={names().length}
          palette={palette()}
          size={28}
        />
        <span>
          {name}: {withUnit(formatValue(state().value, props.series.decimals), props.series.unit)},{' '}
          {standingName(standingOf(state()), names()).toLowerCase()}
        </span>
      </li>
    )
  }
  return (
    <ul class="what-if-symbols" aria-label="On the plan at the clock">
      {one('Official', () => props.official)}
      {one('Sandbox', () => props.sandbox)}
    </ul>
  )
}
