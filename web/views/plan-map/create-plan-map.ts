import { MapLibreOverlay } from '@deck.gl/maplibre'
import * as maplibregl from 'maplibre-gl'
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?url'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { describeCoverage } from '../../derived/coverage-marks.ts'
import { describeNote } from '../../derived/note-marks.ts'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import { wellFeatures } from '../../derived/well-marks.ts'
import {
  baseStyle,
  isWorksLayer,
  isWorksNameLayer,
  namesLayer,
  namesSource,
  roomImage,
  wellsSource,
  worksSource,
} from './base-style.ts'
import { createPlanLayers } from './create-plan-layers.ts'
import { signAside } from './layers/note-layers.ts'
import { lineLeaves, middleOf, namesCutOff } from './names-within.ts'
import { type Direction, nearestSymbol, type OnScreen, symbolTowards } from './pick-symbol.ts'
import { createPlanControls } from './plan-controls.ts'
import type { PlanMapCallbacks, PlanMapProps, PlanView } from './plan-map-props.ts'
import { pointNames } from './point-names.ts'
import { createSheetFrame } from './sheet-frame.ts'
import { siteBounds } from './site-bounds.ts'
import { createSymbolCard } from './symbol-card.ts'
import { symbolSizePixels } from './symbol-size.ts'
import { phaseSignature, worksAt } from './works-phases.ts'

export interface PlanMap {
  update(props: PlanMapProps): void
  /** Call when the plan has been shown again after it was hidden. */
  resize(): void
  destroy(): void
}

maplibregl.setWorkerUrl(workerUrl)

/** Marks a move of the map as one that a person asked for. */
const asked = { asked: true }
const tapRadiusPixels = 26
const signRadiusPixels = 16
const arrows: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
}

/** The site plan. One is made for the life of the page; it is hidden, never thrown away. */
export function createPlanMap(
  element: HTMLElement,
  first: PlanMapProps,
  callbacks: PlanMapCallbacks,
): PlanMap {
  let props = first
  let draft: LngLat[] = []
  let drawnWorks = ''
  let drawnWells: PlanMapProps['wells'] | null = null
  let drawnNames = ''
  let openTest: string | null = null
  let openNote: string | null = null
  let coloured = false
  let drawnEpochMs = Number.NaN
  let lookedAt: PlanView | null | undefined
  let cutNames = ''
  let worksNameFilters: ReadonlyMap<string, ReturnType<maplibregl.Map['getFilter']>> = new Map()
  const map = new maplibregl.Map({
    container: element,
    style: styleOf(first),
    bounds: siteBounds(first),
    fitBoundsOptions: { padding: fitPadding() },
    attributionControl: false,
    keyboard: false,
    pitchWithRotate: false,
    touchPitch: false,
    maxPitch: 0,
    minZoom: 12,
    maxZoom: 23,
    fadeDuration: 0,
    canvasContextAttributes: { antialias: true },
  })
  map.doubleClickZoom.disable()
  if (first.isBoard)
    for (const way of [map.dragPan, map.scrollZoom, map.dragRotate, map.boxZoom]) way.disable()
  const canvas = map.getCanvas()
  canvas.setAttribute('role', 'application')
  canvas.setAttribute('aria-label', 'Site plan')
  canvas.setAttribute('aria-describedby', 'plan-keys')

  const layers = createPlanLayers(() => redraw())
  const overlay = addOverlay()
  const frame = createSheetFrame(element)
  const card = createSymbolCard(element)
  const controls = createPlanControls(element, {
    zoom: (steps) => map.easeTo({ zoom: map.getZoom() + steps, duration: 150 }, asked),
    fit: () => callbacks.viewChanged(null),
    faceNorth: () => map.easeTo({ bearing: 0, duration: 200 }, asked),
    finishLine,
    takeBackCorner: () => {
      draft = draft.slice(0, -1)
      redraw()
    },
    giveUpLine,
  })

  map.on('click', (event) => tap(event.point.x, event.point.y, [event.lngLat.lng, event.lngLat.lat]))
  map.on('dblclick', () => {
    if (props.drawingSection) finishLine()
  })
  map.on('mousemove', (event) => hover(event.point.x, event.point.y))
  map.on('mouseout', () => hover(Number.NaN, Number.NaN))
  map.on('move', followMove)
  map.on('moveend', reportView)
  map.on('moveend', leaveCutNames)
  map.on('resize', () => {
    if (props.view === null) fitSite(0)
    followMove()
    leaveCutNames()
  })
  map.on('webglcontextlost', callbacks.contextLost)
  map.on('style.load', () => {
    if (!map.hasImage(roomImage)) {
      map.addImage(roomImage, { width: 1, height: 1, data: new Uint8Array(4) })
    }
    drawnWorks = ''
    drawnWells = null
    drawnNames = ''
    cutNames = ''
    worksNameFilters = new Map(
      map
        .getStyle()
        .layers.filter(({ id }) => isWorksNameLayer(id) && id !== 'worksname-well')
        .map(({ id }) => [id, map.getFilter(id)]),
    )
    redraw()
    leaveCutNames()
  })
  element.addEventListener('keydown', press)
  const sizes = new ResizeObserver(() => map.resize())
  sizes.observe(element)
  update(first)

  return { update, resize: () => map.resize(), destroy }

  function update(next: PlanMapProps): void {
    const before = props
    props = next
    if (!next.drawingSection) draft = []
    const restyled =
      next.palette !== before.palette ||
      next.scale !== before.scale ||
      next.leastTextPixels !== before.leastTextPixels
    if (restyled || next.site !== before.site) map.setStyle(styleOf(next))
    if (next.site !== before.site) lookedAt = undefined
    follow(next.view)
    redraw()
  }

  /** Moves to a view that came from outside; one that the map itself reported is left alone. */
  function follow(view: PlanView | null): void {
    if (lookedAt !== undefined && sameView(view, lookedAt)) return
    const started = lookedAt !== undefined
    lookedAt = view
    if (view) map.jumpTo(cameraOf(view))
    else if (started) fitSite(250)
  }

  /** Room for the margin of the sheet and half a symbol, less where the plan itself is small. */
  function fitPadding(): number {
    return Math.max(8, Math.min(48, element.clientHeight / 9, element.clientWidth / 9))
  }

  function fitSite(duration: number): void {
    map.fitBounds(siteBounds(props), { padding: fitPadding(), bearing: 0, duration })
  }

  function redraw(): void {
    if (!map.getLayer(namesLayer)) return
    giveWorks()
    giveNames()
    const list = layers.list(props, draft, map.getZoom())
    overlay.setProps({ layers: list })
    markColoured(list.some((layer) => layer.id === 'symbols'))
    markDrawn()
    controls.showDrawing(props.drawingSection ? draft.length : null, props.drawingOf)
    canvas.style.cursor = props.drawingSection ? 'crosshair' : ''
    showCard(null)
    followMove()
  }

  /** Leaves the mark `plan-coloured` in the page's timeline once every point has been drawn with its state. */
  function markColoured(drawn: boolean): void {
    if (coloured || !drawn || !props.symbols.some((symbol) => symbol.standing !== 'unknown')) return
    coloured = true
    map.once('render', () => requestAnimationFrame(tellColoured))
  }

  function tellColoured(): void {
    performance.mark('plan-coloured')
    callbacks.coloured()
  }

  /** Marks, with its instant, that the plan of another instant was given to the GPU, and that its frame was drawn. */
  function markDrawn(): void {
    const { atEpochMs } = props
    if (atEpochMs === drawnEpochMs) return
    drawnEpochMs = atEpochMs
    performance.mark('plan-given', { detail: atEpochMs })
    map.once('render', () => performance.mark('plan-drawn', { detail: atEpochMs }))
  }

  function giveWorks(): void {
    const signature = `${props.site}${phaseSignature(props.works, props.atEpochMs)}`
    if (signature !== drawnWorks) {
      drawnWorks = signature
      map.getSource<maplibregl.GeoJSONSource>(worksSource)?.setData(worksAt(props.works, props.atEpochMs))
    }
    if (props.grid && props.wells !== drawnWells) {
      drawnWells = props.wells
      map.getSource<maplibregl.GeoJSONSource>(wellsSource)?.setData(wellFeatures(props.wells, props.grid))
    }
    for (const { id } of map.getStyle().layers) {
      const shown = isWorksLayer(id) ? props.showWorks : isWorksNameLayer(id) ? props.showNames : null
      const wanted = shown ? 'visible' : 'none'
      if (shown !== null && (map.getLayoutProperty(id, 'visibility') ?? 'visible') !== wanted) {
        map.setLayoutProperty(id, 'visibility', wanted)
      }
    }
  }

  /** On a board half a name at the edge is none. */
  function leaveCutNames(): void {
    if (!props.isBoard || worksNameFilters.size === 0) return
    const [width, height] = [element.clientWidth, element.clientHeight]
    const names = props.works.features.flatMap((feature) => {
      const middle = middleOf(feature.geometry)
      return middle
        ? {
            name: feature.properties.name,
            ...pixels(middle),
            leaves: lineLeaves(feature.geometry, pixels, width, height),
          }
        : []
    })
    const cut = namesCutOff(names, width, height, props.leastTextPixels)
    if (cut.join('|') === cutNames) return
    cutNames = cut.join('|')
    for (const [id, filter] of worksNameFilters) {
      const own = filter as maplibregl.ExpressionSpecification
      map.setFilter(id, ['all', own, ['!', ['in', ['get', 'name'], ['literal', [...cut]]]]])
    }
  }

  function giveNames(): void {
    const names = pointNames(props.symbols, props.showNames, props.isBoard ? props : null)
    if (names.signature === drawnNames) return
    drawnNames = names.signature
    map.getSource<maplibregl.GeoJSONSource>(namesSource)?.setData(names.features)
  }

  function tap(x: number, y: number, at: LngLat): void {
    if (props.drawingSection) {
      if (props.drawingOf === 'gateway') {
        callbacks.lineDrawn([at])
        return
      }
      draft = [...draft, at]
      redraw()
      return
    }
    openNote = nearestNote(x, y)
    if (openNote !== null) {
      showCard(null)
      return
    }
    const id = nearestSymbol(onScreen(), x, y, tapRadiusPixels)
    openTest = id === null ? nearestTest(x, y) : null
    if (props.picked && id !== null) callbacks.pick(id)
    else callbacks.select(id)
    showCard(id)
  }

  function hover(x: number, y: number): void {
    if (props.drawingSection) return
    const id = nearestSymbol(onScreen(), x, y, 18)
    canvas.style.cursor = id === null ? '' : 'pointer'
    showCard(id)
  }

  /** A coverage test near a tap, where no symbol is. */
  function nearestTest(x: number, y: number): string | null {
    const tests = props.coverage.map((mark) => ({ id: mark.test, ...pixels(mark) }))
    return nearestSymbol(tests, x, y, tapRadiusPixels)
  }

  /** Notes whose sign was tapped; it stands beside its place, where the symbol of an instrument may be. */
  function nearestNote(x: number, y: number): string | null {
    const [right, below] = signAside(symbolSizePixels(map.getZoom(), props.scale))
    const notes = props.notes.map((mark) => ({ id: mark.id, ...pixels(mark) }))
    return nearestSymbol(notes, x - right, y - below, signRadiusPixels)
  }

  function showCard(hoveredId: string | null): void {
    // The card of what is selected would lie over what stands around it.
    const isAroundIt = props.neighbours || props.picked || props.area.length > 0
    const standing = isAroundIt ? null : props.selectedId
    const note = hoveredId === null ? props.notes.find((mark) => mark.id === openNote) : undefined
    const symbol = props.drawingSection || note ? undefined : symbolOf(hoveredId ?? standing)
    const test = symbol || note ? undefined : props.coverage.find((mark) => mark.test === openTest)
    if (test) {
      const { x, y } = pixels(test)
      card.show(describeCoverage(test), x, y, element.clientWidth, element.clientHeight)
    } else if (note) {
      const { x, y } = pixels(note)
      card.show(note.notes.slice(0, 5).map(describeNote), x, y, element.clientWidth, element.clientHeight)
    } else if (!symbol) card.hide()
    else {
      const { x, y } = map.project([symbol.longitude, symbol.latitude])
      card.show(props.describe(symbol), x, y, element.clientWidth, element.clientHeight)
    }
  }

  function followMove(): void {
    const { grid } = props
    const [width, height] = [element.clientWidth, element.clientHeight]
    if (grid) {
      const gridAt = (x: number, y: number) => {
        const { lng, lat } = map.unproject([x, y])
        return grid.toGrid([lng, lat])
      }
      const corners = {
        topLeft: gridAt(0, 0),
        topRight: gridAt(width, 0),
        bottomLeft: gridAt(0, height),
        bottomRight: gridAt(width, height),
      }
      if (props.isBoard) frame.updateBoard(height, corners, width, props.leastTextPixels)
      else frame.update(width, height, corners)
    }
    controls.showBearing(map.getBearing())
    if (map.isMoving()) {
      showCard(null)
      if (layers.needsSize(map.getZoom(), props.scale))
        overlay.setProps({ layers: layers.list(props, draft, map.getZoom()) })
    }
  }

  /** Moves that a person made are told; those that a new size or an address made are not. */
  function reportView(event: { originalEvent?: unknown; asked?: boolean }): void {
    if (!event.originalEvent && !event.asked) return
    const { lng, lat } = map.getCenter()
    const bearingDegrees = map.getBearing()
    const view = { longitude: lng, latitude: lat, zoom: map.getZoom(), bearingDegrees }
    if (lookedAt !== undefined && sameView(view, lookedAt)) return
    lookedAt = view
    callbacks.viewChanged(view)
  }

  function press(event: KeyboardEvent): void {
    if (event.target !== canvas || event.ctrlKey || event.metaKey || event.altKey) return
    const direction = arrows[event.key]
    if (direction && event.shiftKey) panTowards(direction)
    else if (direction) selectTowards(direction)
    else if (event.key === '+' || event.key === '=')
      map.easeTo({ zoom: map.getZoom() + 0.5, duration: 120 }, asked)
    else if (event.key === '-') map.easeTo({ zoom: map.getZoom() - 0.5, duration: 120 }, asked)
    else if (event.key === '0') callbacks.viewChanged(null)
    else if (event.key === 'Enter') {
      if (props.drawingSection) addCentreCorner()
      else if (props.picked && props.selectedId !== null) callbacks.pick(props.selectedId)
      else callbacks.openSelected()
    } else if (event.key === 'Backspace' && props.drawingSection) {
      draft = draft.slice(0, -1)
      redraw()
    } else if (event.key === 'f' && props.drawingSection) finishLine()
    else if (event.key === 'Escape') {
      if (props.drawingSection) giveUpLine()
      else callbacks.select(null)
    } else return
    event.preventDefault()
    event.stopPropagation()
  }

  function selectTowards(direction: Direction): void {
    const selected = symbolOf(props.selectedId)
    const from = selected
      ? { id: selected.id, ...pixels(selected) }
      : { id: null, x: element.clientWidth / 2, y: element.clientHeight / 2 }
    const id = symbolTowards(onScreen(), from, direction)
    if (id === null) return
    const symbol = symbolOf(id)
    callbacks.select(id)
    if (symbol && !isInView(pixels(symbol))) {
      map.easeTo({ center: [symbol.longitude, symbol.latitude], duration: 200 }, asked)
    }
  }

  /** By keyboard a corner is put at the selected symbol, or in the middle of the plan. */
  function addCentreCorner(): void {
    const selected = symbolOf(props.selectedId)
    const { lng, lat } = map.getCenter()
    const corner: LngLat = selected ? [selected.longitude, selected.latitude] : [lng, lat]
    if (props.drawingOf === 'gateway') {
      callbacks.lineDrawn([corner])
      return
    }
    draft = [...draft, corner]
    redraw()
  }

  function panTowards(direction: Direction): void {
    const [x, y] = { left: [-90, 0], right: [90, 0], up: [0, -90], down: [0, 90] }[direction] as [
      number,
      number,
    ]
    map.panBy([x, y], { duration: 120 }, asked)
  }

  function finishLine(): void {
    const corners = draft
    draft = []
    if (corners.length >= 2) callbacks.lineDrawn(corners)
    else redraw()
  }

  function giveUpLine(): void {
    draft = []
    callbacks.lineGivenUp()
  }

  function symbolOf(id: string | null): PlanSymbol | undefined {
    return id === null ? undefined : props.symbols.find((symbol) => symbol.id === id)
  }

  function pixels(symbol: { longitude: number; latitude: number }): { x: number; y: number } {
    const { x, y } = map.project([symbol.longitude, symbol.latitude])
    return { x, y }
  }

  function onScreen(): readonly OnScreen[] {
    return props.symbols.map((symbol) => ({ id: symbol.id, ...pixels(symbol) }))
  }

  function isInView({ x, y }: { x: number; y: number }): boolean {
    return x > 30 && y > 30 && x < element.clientWidth - 30 && y < element.clientHeight - 30
  }

  function addOverlay(): MapLibreOverlay {
    const made = new MapLibreOverlay({ interleaved: true, layers: [] })
    map.addControl(made as unknown as maplibregl.IControl)
    return made
  }

  function destroy(): void {
    sizes.disconnect()
    element.removeEventListener('keydown', press)
    layers.forget()
    controls.destroy()
    card.destroy()
    frame.destroy()
    map.remove()
  }
}

/** True where the browser can draw the plan at all. */
export function canDrawPlan(): boolean {
  return document.createElement('canvas').getContext('webgl2') !== null
}

function styleOf(props: PlanMapProps): maplibregl.StyleSpecification {
  const [, south, , north] = siteBounds(props)
  const works = worksAt(props.works, props.atEpochMs)
  return baseStyle(props.palette, works, (south + north) / 2, props.scale, props.leastTextPixels)
}

function cameraOf(view: PlanView): maplibregl.JumpToOptions {
  return { center: [view.longitude, view.latitude], zoom: view.zoom, bearing: view.bearingDegrees }
}

/** Alike to what an address can carry. */
function sameView(left: PlanView | null, right: PlanView | null): boolean {
  if (left === null || right === null) return left === right
  return (
    Math.abs(left.longitude - right.longitude) < 1e-6 &&
    Math.abs(left.latitude - right.latitude) < 1e-6 &&
    Math.abs(left.zoom - right.zoom) < 0.006 &&
    Math.abs(left.bearingDegrees - right.bearingDegrees) < 0.06
  )
}
