import { createSignal, Show } from 'solid-js'
import { sectionLine } from '../state/section-line.ts'
import { selectedPoint, selectPoint } from '../state/selection.ts'
import { statesAtClock, statesLag, statesTrouble } from '../state/series-states.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { Section } from '../views/section/Section.tsx'
import { sectionFromSite } from '../views/section/section-from-site.ts'
import type { SectionProps } from '../views/section/section-props.ts'
import { SectionLineForm } from './SectionLineForm.tsx'

/** A cut through the site along the drawn line, at the clock. */
export function SectionPanel() {
  const [offsetLimitMetres, setOffsetLimitMetres] = createSignal(10)
  const [trueScale, setTrueScale] = createSignal(false)
  const [joinLayersWithinMetres, setJoinLayersWithinMetres] = createSignal(30)
  const [movementExaggeration, setMovementExaggeration] = createSignal(100)
  const shown = (): SectionProps | null => {
    const document = siteDocument()
    const grid = siteGrid()
    const at = clockEpochMs()
    if (!document || !grid || at === null || sectionLine().length < 2) return null
    const trouble = statesTrouble()
    return sectionFromSite(document, grid, statesAtClock()?.states ?? new Map(), {
      line: sectionLine().map((corner) => [corner.eastingMetres, corner.northingMetres] as const),
      clockEpochMs: at,
      offsetLimitMetres: offsetLimitMetres(),
      trueScale: trueScale(),
      joinLayersWithinMetres: joinLayersWithinMetres(),
      movementExaggeration: movementExaggeration(),
      selectedPoint: selectedPoint()?.id ?? null,
      remarks: trouble ? [trouble] : [],
      waiting: trouble === null && statesLag(),
    })
  }
  return (
    <div class="view-panel">
      <SectionLineForm />
      <Show
        when={shown()}
        fallback={
          <p class="waiting">Draw a line on the plan: the section shows ground, works and values along it.</p>
        }
      >
        {(props) => (
          <Section
            shown={props}
            onSelectPoint={(point) => selectPoint(point)}
            onTrueScale={setTrueScale}
            onOffsetLimit={setOffsetLimitMetres}
            onJoinLayersWithin={setJoinLayersWithinMetres}
            onMovementExaggeration={setMovementExaggeration}
          />
        )}
      </Show>
    </div>
  )
}
