import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import { lastAtOrBefore, type ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { type Columns, columnsOf } from '../engine/columns.ts'
import { formatValue } from '../ui/format-value.ts'
import { decimalsApart } from '../views/marks/value-ticks.ts'

/**
 * An answer to `settlementAt` with the last values of the sandbox in place of the official ones, for the series whose
 * values it moves; all others stand as they are. A series whose last reading has no value there has none.
 */
export function withSandboxValues(
  columns: Columns,
  moved: ReadonlyMap<number, ReducedSeries>,
  atEpochMs: number,
): Columns {
  const [series, lastAt, value] = ['series', 'last_at_ms', 'value'].map((name) =>
    columns.number(name).slice(),
  ) as [Float64Array, Float64Array, Float64Array]
  for (let row = 0; row < columns.rows; row++) {
    const own = moved.get(series[row] as number)
    if (!own) continue
    let at = lastAtOrBefore(own.atEpochMs, atEpochMs)
    while (at >= 0 && Number.isNaN(own.value[at] as number)) at--
    value[row] = at < 0 ? Number.NaN : (own.value[at] as number)
    lastAt[row] = at < 0 ? Number.NaN : (own.atEpochMs[at] as number)
  }
  return columnsOf(columns.rows, {
    series,
    last_at_ms: lastAt,
    value,
    quality: columns.number('quality'),
    since_at_ms: columns.number('since_at_ms'),
    since_value: columns.number('since_value'),
  })
}

/** A surface as a small plan: metres of the site grid, north up, origin at the lower left of all that is drawn. */
export interface SurfacePane {
  readonly widthMetres: number
  readonly heightMetres: number
  readonly lines: readonly { readonly path: string; readonly certain: boolean }[]
  readonly labels: readonly { readonly x: number; readonly y: number; readonly text: string }[]
  readonly barriers: readonly string[]
  readonly points: readonly {
    readonly id: string
    readonly x: number
    readonly y: number
    readonly isMoved: boolean
  }[]
}

interface PaneGround {
  readonly points: readonly {
    readonly id: string
    readonly eastingMetres: number
    readonly northingMetres: number
  }[]
  readonly barriers: readonly (readonly SitePoint[])[]
  readonly moved: ReadonlySet<string>
}

const marginMetres = 8
const mostLabels = 8
/** Of the longer side. */
const nearestShare = 0.07

/** Draws a surface, or its points alone where there is none. All panes of the same points have the same frame. */
export function surfacePane(surface: Pick<GroundMap, 'lines'> | null, ground: PaneGround): SurfacePane {
  const eastings = ground.points.map((one) => one.eastingMetres)
  const northings = ground.points.map((one) => one.northingMetres)
  const [west, north] = [Math.min(...eastings) - marginMetres, Math.max(...northings) + marginMetres]
  const [east, south] = [Math.max(...eastings) + marginMetres, Math.min(...northings) - marginMetres]
  const place = ([e, n]: SitePoint): readonly [number, number] => [e - west, north - n]
  const path = (points: readonly SitePoint[]): string =>
    points
      .map(
        (point, at) =>
          `${at === 0 ? 'M' : 'L'}${place(point)
            .map((one) => one.toFixed(2))
            .join(' ')}`,
      )
      .join('')
  const lines = surface?.lines ?? []
  return {
    widthMetres: east - west,
    heightMetres: north - south,
    lines: lines.map(({ points, certain }) => ({ path: path(points), certain })),
    labels: labelsOf(lines, place, nearestShare * Math.max(east - west, north - south)),
    barriers: ground.barriers.map(path),
    points: ground.points.map(({ id, eastingMetres, northingMetres }) => {
      const [x, y] = place([eastingMetres, northingMetres])
      return { id, x, y, isMoved: ground.moved.has(id) }
    }),
  }
}

/** The longest line of each level bears its label in its middle, unless another stands too near. */
function labelsOf(
  lines: GroundMap['lines'],
  place: (point: SitePoint) => readonly [number, number],
  nearestMetres: number,
): SurfacePane['labels'] {
  const longest = new Map<number, readonly SitePoint[]>()
  for (const { level, points } of lines)
    if (points.length > (longest.get(level)?.length ?? 0)) longest.set(level, points)
  const decimals = decimalsApart([...longest.keys()])
  const every = Math.ceil(longest.size / mostLabels)
  const labelled = [...longest].sort(([one], [other]) => one - other).filter((_, at) => at % every === 0)
  const placed: { x: number; y: number; text: string }[] = []
  for (const [level, points] of labelled) {
    const middle = points[Math.floor(points.length / 2)]
    if (!middle) continue
    const [x, y] = place(middle)
    if (placed.some((one) => Math.hypot(one.x - x, one.y - y) < nearestMetres)) continue
    placed.push({ x, y, text: formatValue(level, decimals) })
  }
  return placed
}
