import type * as maplibregl from 'maplibre-gl'
import type { PlanMapProps } from './plan-map-props.ts'

/** Marks in the page's timeline of when the plan was drawn; `tellColoured` is called once, with the first colours. */
export function createTimelineMarks(map: maplibregl.Map, tellColoured: () => void) {
  let coloured = false
  let drawnEpochMs = Number.NaN

  /** Leaves the mark `plan-coloured` in the page's timeline once every point has been drawn with its state. */
  function markColoured({ symbols }: PlanMapProps, drawn: boolean): void {
    if (coloured || !drawn || !symbols.some((symbol) => symbol.standing !== 'unknown')) return
    coloured = true
    map.once('render', () => requestAnimationFrame(seen))
  }

  function seen(): void {
    performance.mark('plan-coloured')
    tellColoured()
  }

  /** Marks, with its instant, that the plan of another instant was given to the GPU, and that its frame was drawn. */
  function markDrawn({ atEpochMs }: PlanMapProps): void {
    if (atEpochMs === drawnEpochMs) return
    drawnEpochMs = atEpochMs
    performance.mark('plan-given', { detail: atEpochMs })
    map.once('render', () => performance.mark('plan-drawn', { detail: atEpochMs }))
  }

  return {
    /** The layers of these props were given to the GPU; `drawn`: with the symbols among them. */
    given(props: PlanMapProps, drawn: boolean): void {
      markColoured(props, drawn)
      markDrawn(props)
    },
  }
}
