import { Show } from 'solid-js'
import { sectionLine } from '../../../state/section-line.ts'
import { selectedPoint, selectPoint } from '../../../state/selection.ts'
import { statesAtClock, statesLag, statesTrouble } from '../../../state/series-states.ts'
import { clockEpochMs } from '../../../state/site-clock.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { siteGrid } from '../../../state/site-grid.ts'
import { Section } from '../../../views/section/Section.tsx'
import { sectionFromSite } from '../../../views/section/section-from-site.ts'
import type { SectionProps } from '../../../views/section/section-props.ts'
import { Nothing } from './Nothing.tsx'

const nothing = () => undefined

/** A cut through the site along the line that the board keeps, at the clock. */
export function SectionBoard() {
  const shown = (): SectionProps | null => {
    const [document, grid, at] = [siteDocument(), siteGrid(), clockEpochMs()]
    if (!document || !grid || at === null || sectionLine().length < 2) return null
    const trouble = statesTrouble()
    return sectionFromSite(document, grid, statesAtClock()?.states ?? new Map(), {
      line: sectionLine().map((corner) => [corner.eastingMetres, corner.northingMetres] as const),
      clockEpochMs: at,
      offsetLimitMetres: 10,
      trueScale: false,
      joinLayersWithinMetres: 30,
      movementExaggeration: 100,
      selectedPoint: selectedPoint()?.id ?? null,
      remarks: trouble ? [trouble] : [],
      waiting: trouble === null && statesLag(),
    })
  }
  return (
    <Show
      when={shown()}
      fallback={
        <Show
          when={sectionLine().length < 2}
          fallback={<p class="board-nothing">The section is being drawn …</p>}
        >
          <Nothing
            missing="No line is kept with this board."
            concluded="Nothing is drawn, and nothing can be concluded of the ground between points."
          />
        </Show>
      }
    >
      {(props) => (
        <Section
          shown={props}
          onSelectPoint={(point) => selectPoint(point)}
          onTrueScale={nothing}
          onOffsetLimit={nothing}
          onJoinLayersWithin={nothing}
          onMovementExaggeration={nothing}
        />
      )}
    </Show>
  )
}
