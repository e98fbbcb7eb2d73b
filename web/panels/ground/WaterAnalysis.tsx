import { createMemo, createSignal, For, Show } from 'solid-js'
import { crossesLine } from '#domain/geometry/crosses-line.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { type WellHead, waterPlane } from '#domain/ground/groundwater/water-plane.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { gradientFigure } from '../../derived/figures/water-figures.ts'
import { headsByHole } from '../../derived/ground/string-pressures.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createTipPressures } from './tip-pressures.ts'

/** The plane of the water in one stratum at the clock: how steep, and which way it flows. */
export function WaterAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const { pressures, tips, remarks, waiting } = createTipPressures(clockEpochMs)
  const strata = createMemo(() => [
    ...new Set(tips().flatMap(({ point }) => (point.stratum === null ? [] : [point.stratum]))),
  ])
  const [chosen, setChosen] = createSignal<string | null>(null)
  const stratum = () => strata().find((one) => one === chosen()) ?? strata().at(-1) ?? null
  const wells = createMemo((): readonly WellHead[] | null => {
    const [document, read] = [siteDocument(), pressures()]
    if (!document || !read) return null
    const { unitWeightKnPerM3 } = siteWater(document.facts)
    return headsByHole(
      tips().filter(({ point }) => point.stratum === stratum()),
      read,
      unitWeightKnPerM3,
    )
  })
  /** Walls between the wells at the clock: one plane through both of their sides means little. */
  const parted = createMemo((): string | null => {
    const [document, grid, at, known] = [siteDocument(), siteGrid(), clockEpochMs(), wells()]
    if (!document || !grid || at === null || !known || known.length < 2) return null
    const ring = barriersAt(document.works, grid, at).filter((line) => line.length > 1)
    const crosses = known.some((one, place) =>
      known
        .slice(place + 1)
        .some((other) =>
          ring.some((line) =>
            crossesLine(
              [one.eastingMetres, one.northingMetres],
              [other.eastingMetres, other.northingMetres],
              line,
            ),
          ),
        ),
    )
    return crosses
      ? 'A wall that stands at the clock lies between some of these wells. One plane through both of its sides means little; look at the tips of either side by themselves.'
      : null
  })
  const outcome = createMemo(() => {
    const known = wells()
    return known && waterPlane(known)
  })
  return (
    <Show
      when={strata().length > 0}
      fallback={<p class="waiting">No piezometer tip states the stratum that it stands in.</p>}
    >
      <div class="ground-fields">
        <label class="ground-field">
          Stratum
          <select value={stratum() ?? ''} onChange={(event) => setChosen(event.currentTarget.value)}>
            <For each={strata()}>{(one) => <option value={one}>{one}</option>}</For>
          </select>
        </label>
      </div>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={parted()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show
        when={outcome()}
        keyed
        fallback={<p class="waiting">{waiting() ? 'Asking for pore pressures …' : 'No readings.'}</p>}
      >
        {(found) => (
          <AnalysisResult
            figures={[
              gradientFigure(found, {
                title: `${stratum()}: piezometric level at ${formatShortInstant(clockEpochMs() ?? 0, zone())}`,
                selected: selectedPoint()?.id ?? null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.ok ? [{ heading: 'Plane', account: found.value }] : []}
            nameOf={(well: WellHead) => well.id}
          />
        )}
      </Show>
    </Show>
  )
}
