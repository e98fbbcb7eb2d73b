import { createMemo, Show } from 'solid-js'
import { type WidthAtDepth, widthsWithDepth } from '#domain/ground/troughs/width-with-depth.ts'
import { widthsAtDepths } from '#domain/ground/troughs/widths-at-depths.ts'
import { widthWithDepthFigure } from '../../derived/figures/width-with-depth-figure.ts'
import { placesWithin } from '../../derived/ground/settled-places.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createAnchorPlaces } from './anchor-places.ts'
import type { DriveOfPanel } from './drive-of-panel.ts'

/** How the trough narrows with depth, from anchors below ground; or what is lacking to tell it. */
export function WidthWithDepth(props: {
  of: DriveOfPanel
  chainageMetres: number
  withinMetres: number
  times: string
}) {
  const anchors = createAnchorPlaces(() => props.of.sinceEpochMs())
  const found = createMemo(() => {
    const [on, surface, below] = [props.of.alignment(), props.of.places(), anchors()]
    if (!on || !surface || !below) return null
    const widths = widthsAtDepths(
      [...surface, ...placesWithin(below, on.stationOf, props.of.reachMetres())],
      (point) => on.stationOf(point),
      { chainageMetres: props.chainageMetres, withinMetres: props.withinMetres, drive: props.of.drive() },
    )
    if (!widths.ok) return widths
    const compared = widthsWithDepth(widths.value.widths, props.of.drive())
    if (!compared.ok) return compared
    const said = widths.value.leftOut.map(({ item, reason }) => `${item.id} is left out. ${reason}`)
    return { ...compared, value: { ...compared.value, remarks: [...compared.value.remarks, ...said] } }
  })
  const figure = () => {
    const outcome = found()
    return (
      outcome &&
      widthWithDepthFigure(outcome, {
        title: `${props.of.alignment()?.name}: width of the trough by depth, ${props.times}`,
        selected: null,
        timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
      })
    )
  }
  const account = () => {
    const outcome = found()
    return outcome?.ok ? [{ heading: 'Width by depth', account: outcome.value }] : []
  }
  return (
    <section class="ground-part" aria-label="Width of the trough by depth">
      <h2>Width of the trough by depth</h2>
      <Show when={figure()} fallback={<p class="waiting">Asking for settlements below ground …</p>}>
        {(shown) => (
          <AnalysisResult
            figures={[shown()]}
            accounts={account()}
            nameOf={({ depthMetres, points }: WidthAtDepth) =>
              points ? `${points.join(', ')} at ${formatValue(depthMetres, 1)} m` : 'points at the surface'
            }
          />
        )}
      </Show>
    </section>
  )
}
