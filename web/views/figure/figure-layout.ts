import { type Extent, extentOf, widened } from '../marks/value-ticks.ts'
import type { FigureAxis, FigureProps, FigureSize } from './figure-props.ts'

export interface FigureLayout extends FigureSize {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly xs: Extent
  readonly ys: Extent
  /** Pixels of a value; null where it cannot be drawn on the axis (nought or less by decades). */
  readonly x: (value: number) => number | null
  readonly y: (value: number) => number | null
}

/** Lines of the key, one a row. */
export const keyRows = ({ curves, bands, points }: FigureProps): number =>
  curves.filter(({ name }) => name !== '').length + bands.length + (points.length > 0 ? 1 : 0)

/** Where values stand in a figure of that size; every drawn value finds room, bars and bands included. */
export function layOutFigure(props: FigureProps, size: FigureSize): FigureLayout {
  const font = size.fontPixels
  const left = font * 5
  const right = size.widthPixels - font * 1.2
  const top = font * (1.4 + 1.35 * keyRows(props))
  const bottom = size.heightPixels - font * 3.2
  const xs = extentAlong(props, 'x')
  const ys = extentAlong(props, 'y')
  return {
    ...size,
    left,
    right,
    top,
    bottom,
    xs,
    ys,
    x: scaleOf(props.x, xs, left, right),
    y: scaleOf(props.y, ys, bottom, top),
  }
}

function extentAlong(props: FigureProps, along: 'x' | 'y'): Extent {
  const axis = props[along]
  const place = along === 'x' ? 0 : 1
  const values = [
    ...axis.including,
    ...props.curves.flatMap(({ places }) => places.map((one) => one?.[place] ?? Number.NaN)),
    ...props.bands.flatMap(({ places }) =>
      along === 'x' ? places.map(([x]) => x) : places.flatMap(([, low, high]) => [low, high]),
    ),
    ...props.points.flatMap(({ place: at, halfBar, halfBarAcross }) =>
      along === 'x'
        ? [at[0] - (halfBarAcross ?? 0), at[0] + (halfBarAcross ?? 0)]
        : [at[1] - (halfBar ?? 0), at[1] + (halfBar ?? 0)],
    ),
    ...props.rules.filter(({ across }) => across === along).map(({ at }) => at),
  ].filter((value) => axis.scale !== 'decades' || value > 0)
  const seen = extentOf(axis.scale === 'decades' ? values.map(Math.log10) : values)
  if (!seen) return axis.scale === 'decades' ? { low: 0, high: 1 } : { low: -1, high: 1 }
  const least =
    axis.scale === 'instant' ? 3_600_000 : axis.scale === 'decades' ? 0.3 : 4 * 10 ** -axis.decimals
  return widened(seen, 0.05, least)
}

function scaleOf(axis: FigureAxis, extent: Extent, atLow: number, atHigh: number) {
  const [from, to] = axis.reversed ? [atHigh, atLow] : [atLow, atHigh]
  return (value: number): number | null => {
    const placed = axis.scale === 'decades' ? Math.log10(value) : value
    if (!Number.isFinite(placed)) return null
    return from + ((placed - extent.low) / (extent.high - extent.low)) * (to - from)
  }
}
