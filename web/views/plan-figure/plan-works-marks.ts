import type { Geometry, Position } from 'geojson'
import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { dot, label, line, type Mark, path, pathThrough } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import { groupedMetres, roundSpacing } from '../plan-map/grid-ticks.ts'
import { worksAt } from '../plan-map/works-phases.ts'
import type { PlanFigureLayout } from './plan-figure-layout.ts'
import type { PlanFigureProps } from './plan-figure-props.ts'

/** From the lowest up. */
const order = [
  'shore',
  'dock',
  'boundary',
  'excavation',
  'building',
  'obstruction',
  'tunnel',
  'service',
  'wall',
]

/** Outlines of the works as they stand at the instant: what is to come is dotted, what is gone left out. */
export function planWorksMarks(
  props: PlanFigureProps,
  layout: PlanFigureLayout,
  wanted: WantedLabel[],
): Mark[] {
  const named = new Set<string>()
  return worksAt(props.works, props.atEpochMs)
    .features.toSorted(
      (left, right) => order.indexOf(left.properties.kind) - order.indexOf(right.properties.kind),
    )
    .flatMap(({ geometry, properties: { kind, name, phase } }) => {
      const runs = runsOf(geometry)
      const closed = geometry.type === 'Polygon' || geometry.type === 'MultiPolygon'
      const d = runs
        .map((run) => `${pathThrough(run.map((place) => layout.ofPosition(place)))}${closed ? 'Z' : ''}`)
        .join('')
      if (d === '') return []
      const largest = runs.toSorted((one, other) => other.length - one.length)[0] ?? []
      if (kind !== 'boundary' && !named.has(name)) {
        named.add(name)
        const [x, y] = closed ? middleOf(largest, layout) : alongOf(largest, layout)
        wanted.push({ x, y, text: name, className: 'works-name', clearPixels: 2, weight: -20 })
      }
      const open = closed ? '' : ' open'
      return [
        path(`works works-${kind} ${phase}${open}`, d, phase === 'to-come' ? `${name} (to come)` : name),
      ]
    })
}

function runsOf(geometry: Geometry): readonly (readonly Position[])[] {
  switch (geometry.type) {
    case 'LineString':
      return [geometry.coordinates]
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates
    case 'MultiPolygon':
      return geometry.coordinates.flat()
    default:
      return []
  }
}

function middleOf(ring: readonly Position[], layout: PlanFigureLayout): readonly [number, number] {
  const places = ring.map((place) => layout.ofPosition(place))
  const xs = places.map(([x]) => x)
  const ys = places.map(([, y]) => y)
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2]
}

/** The middle of the part of a line that is within the frame. */
function alongOf(run: readonly Position[], layout: PlanFigureLayout): readonly [number, number] {
  const places = run.map((place) => layout.ofPosition(place))
  const inside = places.filter(([x, y]) => isWithin(x, y, layout))
  if (inside.length >= 2) {
    const at = Math.floor((inside.length - 1) / 2)
    const [from, to] = [inside[at], inside[at + 1]]
    if (from && to) return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
  }
  return inside[0] ?? places[0] ?? [0, 0]
}

export const isWithin = (
  x: number,
  y: number,
  { left, right, top, bottom }: PlanFigureLayout,
  inset = 0,
): boolean => x >= left + inset && x <= right - inset && y >= top + inset && y <= bottom - inset

/** Axes along which chainage is told, ticked at round chainages, each tick with its metres. */
export function alignmentMarks({ alignments }: PlanFigureProps, layout: PlanFigureLayout): Mark[] {
  const font = layout.fontPixels
  const spacing = roundSpacing(layout.metresPerPixel * font * 7)
  return alignments.flatMap((alignment) => {
    const corners = alignment.corners.map((corner) => layout.toPixels(corner))
    return [
      path('alignment', pathThrough(corners), alignment.name),
      ...chainagesOf(alignment, spacing).flatMap((chainage) =>
        chainageTick(alignment, chainage, layout, font),
      ),
    ]
  })
}

function chainageTick(
  alignment: WorksAlignment,
  chainageMetres: number,
  layout: PlanFigureLayout,
  font: number,
): Mark[] {
  const across = layout.metresPerPixel * font * 0.45
  const ends = [alignment.pointAt(chainageMetres, -across), alignment.pointAt(chainageMetres, across)]
  const [from, to] = ends.map((end) => end && layout.toPixels(end))
  if (!from || !to || !isWithin(to[0], to[1], layout, font)) return []
  const [aheadX, aheadY] = [to[0] - from[0], to[1] - from[1]]
  const text = `CH\u2009${groupedMetres(chainageMetres)}`
  // Read along the tick, never upside down.
  const turned = (Math.atan2(aheadY, aheadX) * 180) / Math.PI
  const flip = turned > 90 || turned <= -90
  const out = font * 0.35
  const length = Math.hypot(aheadX, aheadY) || 1
  const [x, y] = [to[0] + (aheadX / length) * out, to[1] + (aheadY / length) * out]
  const angle = flip ? turned + 180 : turned
  return [
    line('chainage', from[0], from[1], to[0], to[1]),
    label('chainage-name', 0, font * 0.3, text, flip ? 'end' : 'start', {
      transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${angle.toFixed(1)})`,
      'font-size': font * 0.8,
    }),
  ]
}

function chainagesOf(
  { startChainageMetres: start, lengthMetres }: WorksAlignment,
  spacing: number,
): number[] {
  const first = Math.ceil(start / spacing)
  const last = Math.floor((start + lengthMetres) / spacing)
  if (!Number.isFinite(last - first) || last - first > 400) return []
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, step) => (first + step) * spacing)
}

/** Pumped wells: a ring, with a dot in it while water is taken out or put in. */
export function planWellMarks(
  { wells }: PlanFigureProps,
  layout: PlanFigureLayout,
  wanted: WantedLabel[],
): Mark[] {
  return wells.flatMap(({ eastingMetres, northingMetres, rateLitresPerSecond, text }) => {
    const [x, y] = layout.toPixels([eastingMetres, northingMetres])
    if (!isWithin(x, y, layout)) return []
    wanted.push({
      x,
      y,
      text,
      className: 'works-name',
      clearPixels: layout.radiusPixels * 1.4,
      weight: 5,
    })
    const ring = dot('well-ring', x, y, layout.radiusPixels * 1.25)
    return rateLitresPerSecond ? [ring, dot('well-pumped', x, y, layout.radiusPixels * 0.3)] : [ring]
  })
}
