import { createMemo, createRoot, createSignal, onCleanup, onMount, Show } from 'solid-js'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import { siteNaming } from '../../panels/alerts/alert-naming.ts'
import { shortAlert } from '../../panels/alerts/alert-words.ts'
import { describePoint, describeSymbol } from '../../panels/describe-point.ts'
import { alertMarksShown } from '../../state/alert-marks.ts'
import { alertsAtClock } from '../../state/alerts.ts'
import { deliveryShown, plannedShown } from '../../state/delivery-shown.ts'
import { reportFirstColour } from '../../state/first-colour.ts'
import { lookAt, mapView } from '../../state/map-view.ts'
import { neighboursDrawn } from '../../state/neighbours-shown.ts'
import { noteMarksShown } from '../../state/note-marks.ts'
import { reportTrouble } from '../../state/notices.ts'
import { isOnWall } from '../../state/on-wall.ts'
import { ownPosition } from '../../state/own-position.ts'
import { takePatch } from '../../state/patch.ts'
import { patchOutline } from '../../state/patch-outline.ts'
import { pickedSymbols, pickSymbolForComparison } from '../../state/picked-symbols.ts'
import { isLayerShown, surfaceLayers } from '../../state/plan-layers.ts'
import { planSurface, surfaceTrouble, workedSurface } from '../../state/plan-surface.ts'
import { selectedSymbol, selectSymbol, shownSymbols } from '../../state/plan-symbols.ts'
import { planTool, takePlanTool } from '../../state/plan-tool.ts'
import { coverageShown, radioMarks } from '../../state/radio-marks.ts'
import { placeGateway, placeObstruction } from '../../state/radio-plan.ts'
import { drawSection, sectionLine } from '../../state/section-line.ts'
import { planEpochMs } from '../../state/series-states.ts'
import { setting } from '../../state/setting.ts'
import { openSheet } from '../../state/sheet.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { palette } from '../../state/theme.ts'
import { leastText } from '../../state/wall-text.ts'
import { shownWells } from '../../state/well-marks.ts'
import { sync } from '../../ui/sync.ts'
import type { PlanMap as Plan } from './create-plan-map.ts'
import type { PlanMapCallbacks, PlanMapProps } from './plan-map-props.ts'

/** The site plan. Made once, when its code and a site are there. */
export function PlanMap() {
  let element: HTMLDivElement | undefined
  let plan: Plan | undefined
  const [hindrance, setHindrance] = createSignal<string | null>(null)
  const code = import('./create-plan-map.ts')
  const [ready, setReady] = createSignal<Awaited<typeof code> | null>(null)
  code.then(
    (loaded) => {
      if (loaded.canDrawPlan()) setReady(loaded)
      else setHindrance(noWebgl)
    },
    (cause) => reportTrouble({ cause, retry: () => location.reload() }),
  )
  const make = (loaded: Awaited<typeof code>, first: PlanMapProps) => {
    try {
      plan = loaded.createPlanMap(element as HTMLDivElement, first, callbacks)
    } catch (cause) {
      console.error(cause)
      setHindrance(noWebgl)
    }
  }
  // A lost context leaves programs and buffers behind that no layer can use again, so the plan is made anew.
  const makeAnew = () => {
    plan?.destroy()
    plan = undefined
    setHindrance(null)
    const [loaded, props] = [ready(), planProps()]
    if (loaded && props) make(loaded, props)
  }
  onMount(() => {
    sync(
      () => ({ loaded: ready(), props: planProps() }),
      ({ loaded, props }) => {
        if (!loaded || !props) return
        if (plan) plan.update(props)
        else if (hindrance() === null) make(loaded, props)
      },
    )
    onCleanup(() => plan?.destroy())
  })
  const callbacks: PlanMapCallbacks = {
    select: selectSymbol,
    pick: pickSymbolForComparison,
    openSelected: () => openSheet('record'),
    viewChanged: lookAt,
    lineDrawn: (corners) => {
      const grid = siteGrid()
      if (!grid) return
      const drawn = corners.map((corner) => {
        const [eastingMetres, northingMetres] = grid.toGrid(corner)
        return { eastingMetres, northingMetres }
      })
      const tool = planTool()
      takePlanTool(null)
      if (tool === 'obstruction') placeObstruction(drawn)
      else if (tool === 'gateway') placeGateway(drawn[0])
      else if (tool === 'patch') takePatch({ kind: 'area', corners: drawn })
      else {
        drawSection(drawn)
        openSheet('section')
      }
    },
    coloured: reportFirstColour,
    lineGivenUp: () => takePlanTool(null),
    contextLost: () => {
      setHindrance(contextLost)
      setTimeout(makeAnew, 1000)
    },
  }
  return (
    <>
      <div class="plan-map" ref={(made) => (element = made)} />
      <p class="visually-hidden" id="plan-keys">
        Arrow keys select the next instrument in that direction, Shift and arrows move the plan, plus and
        minus change the scale, 0 shows the whole site. The register lists the same measuring points.
      </p>
      <Show when={surfaceLayers.some(isLayerShown) && (surfaceTrouble() ?? workedSurface()?.plate)}>
        {(text) => (
          <p class="surface-plate" aria-live="off">
            {surfaceTrouble() === null
              ? `${text()}; ${workedSurface()?.drawnBy}`
              : 'No surface: the key says why'}
          </p>
        )}
      </Show>
      <Show when={hindrance()}>
        {(sentence) => (
          <div class="plan-hindrance">
            <p>{sentence()}</p>
            <button type="button" onClick={makeAnew}>
              Draw the plan again
            </button>
          </div>
        )}
      </Show>
    </>
  )
}

const noWebgl =
  'This browser cannot draw the plan: it gives no WebGL 2. The register lists the same measuring points with value, state and age; everything else works.'
const contextLost =
  'The graphics memory of the plan was taken away by the device. It is drawn anew in a moment; the register stays usable.'

function planProps(): PlanMapProps | null {
  const document = siteDocument()
  const grid = siteGrid()
  if (!document) return null
  return {
    site: document.facts.id,
    palette: palette(),
    scale: isOnWall() ? leastText() / 20 : { desk: 1, walk: 1.2, wall: 1.5 }[setting()],
    leastTextPixels: isOnWall() ? leastText() : 0,
    isBoard: isOnWall(),
    grid,
    works: document.works,
    wells: shownWells(),
    showWorks: isLayerShown('works'),
    showNames: isLayerShown('labels'),
    atEpochMs: planEpochMs(),
    levels: Math.max(1, document.facts.levelNames.length),
    symbols: shownSymbols(),
    selectedId: selectedSymbol()?.id ?? null,
    surface: surfaceLayers.some(isLayerShown) ? planSurface() : null,
    radio: radioMarks(),
    coverage: coverageShown(),
    notes: noteMarksShown(),
    alerts: alertMarksShown(),
    delivery: deliveryShown(),
    neighbours: neighboursDrawn(),
    planned: plannedShown(),
    ownPosition: ownMark(),
    sectionLine: grid
      ? sectionLine().map((corner) => grid.toLngLat([corner.eastingMetres, corner.northingMetres]))
      : [],
    drawingSection: planTool() !== null,
    picked: pickedSymbols(),
    area: patchOutline(),
    drawingOf: planTool() ?? 'section',
    view: mapView(),
    describe,
  }
}

const ownMark = createRoot(() =>
  createMemo(() => {
    const [position, grid] = [ownPosition(), siteGrid()]
    if (!position || !grid) return null
    const [longitude, latitude] = grid.toLngLat([position.eastingMetres, position.northingMetres])
    return { longitude, latitude, accuracyMetres: position.accuracyMetres }
  }),
)

function describe(symbol: PlanSymbol): readonly string[] {
  const only = symbol.points.length === 1 ? siteLookup().pointById.get(symbol.points[0] ?? '') : undefined
  const words = only ? describePoint(only, clockEpochMs() ?? 0) : describeSymbol(symbol)
  const count = symbol.points.length > 1 ? ` · ${symbol.points.length} points` : ''
  const alerts = alertMarksShown().find(({ id }) => id === symbol.id)?.alerts ?? []
  const now = alertsAtClock()?.atEpochMs ?? 0
  const told = alerts.slice(0, 2).map((alert) => shortAlert(alert, now, siteNaming()))
  const more = alerts.length > 2 ? [`and ${alerts.length - 2} more open alerts`] : []
  return [`${symbol.id}${count}`, ...words.split(' · '), ...told, ...more]
}
