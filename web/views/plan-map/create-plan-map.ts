import { MapLibreOverlay } from '@deck.gl/maplibre'
import * as maplibregl from 'maplibre-gl'
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?url'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import { createDrawnWorks } from './create-drawn-works.ts'
import { createPlanCard, tapRadiusPixels } from './create-plan-card.ts'
import { createPlanLayers } from './create-plan-layers.ts'
import { createTimelineMarks } from './create-timeline-marks.ts'
import { type Direction, nearestSymbol, type OnScreen, symbolTowards } from './pick-symbol.ts'
import { createPlanControls } from './plan-controls.ts'
import { planKeys } from './plan-keys.ts'
import type { PlanMapCallbacks, PlanMapProps, PlanView } from './plan-map-props.ts'
import { namesLayer, roomImage } from './plan-sources.ts'
import { styleOf } from './plan-style.ts'
import { cameraOf, sameView } from './plan-view.ts'
import { createSheetFrame } from './sheet-frame.ts'
import { siteBounds } from './site-bounds.ts'

export interface PlanMap {
  update(props: PlanMapProps): void
  /** Call when the plan has been shown again after it was hidden. */
  resize(): void
  destroy(): void
}

maplibregl.setWorkerUrl(workerUrl)

/** Marks a move of the map as one that a person asked for. */
const asked = { asked: true }

/** The site plan. One is made for the life of the page; it is hidden, never thrown away. */
export function createPlanMap(
  element: HTMLElement,
  first: PlanMapProps,
  callbacks: PlanMapCallbacks,
): PlanMap {
  let props = first
  let draft: LngLat[] = []
  let awaitsRest = false
  let lookedAt: PlanView | null | undefined
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
  const works = createDrawnWorks(map)
  const marks = createTimelineMarks(map, callbacks.coloured)
  const frame = createSheetFrame(element)
  const card = createPlanCard(element, map, pixels)
  const controls = createPlanControls(element, {
    zoom: (steps) => map.easeTo({ zoom: map.getZoom() + steps, duration: 150 }, asked),
    fit: () => callbacks.viewChanged(null),
    faceNorth: () => map.easeTo({ bearing: 0, duration: 200 }, asked),
    finishLine,
    takeBackCorner,
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
  map.on('moveend', () => works.leaveCutNames(props))
  map.on('resize', () => {
    if (props.view === null) fitSite(0)
    followMove()
    works.leaveCutNames(props)
  })
  map.on('webglcontextlost', callbacks.contextLost)
  map.on('style.load', () => {
    if (!map.hasImage(roomImage)) {
      map.addImage(roomImage, { width: 1, height: 1, data: new Uint8Array(4) })
    }
    works.forget()
    redraw()
    works.leaveCutNames(props)
  })
  const press = planKeys(canvas, {
    panTowards,
    selectTowards,
    zoom: (steps) => map.easeTo({ zoom: map.getZoom() + steps, duration: 120 }, asked),
    fit: () => callbacks.viewChanged(null),
    enter() {
      if (props.drawingSection) addCentreCorner()
      else if (props.picked && props.selectedId !== null) callbacks.pick(props.selectedId)
      else callbacks.openSelected()
    },
    escape() {
      if (props.drawingSection) giveUpLine()
      else callbacks.select(null)
    },
    isDrawing: () => props.drawingSection,
    takeBackCorner,
    finishLine,
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
  function fitPadding(): maplibregl.PaddingOptions {
    const all = Math.max(8, Math.min(48, element.clientHeight / 9, element.clientWidth / 9))
    // On a board names are large: those of the southernmost points would lie over the scale.
    const bottom = props.isBoard ? Math.max(all, 3.4 * props.leastTextPixels) : all
    return { top: all, right: all, bottom, left: all }
  }

  function fitSite(duration: number): void {
    map.fitBounds(siteBounds(props), { padding: fitPadding(), bearing: 0, duration })
  }

  function redraw(): void {
    if (!map.getLayer(namesLayer)) return
    works.give(props)
    const list = layers.list(props, draft, map.getZoom())
    overlay.setProps({ layers: list })
    // The overlay takes its place among the map's layers only while nothing is being loaded, names that were just given
    // included; until then it lies on top of them.
    if (!map.isStyleLoaded() && !awaitsRest) {
      awaitsRest = true
      map.once('idle', () => {
        awaitsRest = false
        redraw()
      })
    }
    marks.given(
      props,
      list.some((layer) => layer.id === 'symbols'),
    )
    controls.showDrawing(props.drawingSection ? draft.length : null, props.drawingOf)
    canvas.style.cursor = props.drawingSection ? 'crosshair' : ''
    card.show(props, null)
    followMove()
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
    if (card.openNoteAt(props, x, y)) return
    const id = nearestSymbol(onScreen(), x, y, tapRadiusPixels)
    card.openTestAt(props, x, y, id !== null)
    if (props.picked && id !== null) callbacks.pick(id)
    else callbacks.select(id)
    card.show(props, id)
  }

  function hover(x: number, y: number): void {
    if (props.drawingSection) return
    const id = nearestSymbol(onScreen(), x, y, 18)
    canvas.style.cursor = id === null ? '' : 'pointer'
    card.show(props, id)
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
      card.show(props, null)
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

  function takeBackCorner(): void {
    draft = draft.slice(0, -1)
    redraw()
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
