import { lengthOfLine } from '#domain/geometry/alignment.ts'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import { type WorksCut, worksAlongSection } from '#domain/geometry/line-of-works.ts'
import { type OnSection, projectOntoSection } from '#domain/geometry/section-line.ts'
import { extentOf } from '../marks/value-ticks.ts'
import type { SectionHole, SectionPoint, SectionProps } from './section-props.ts'

export interface SectionSize {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
  /** No text may be smaller, numerals among them; left out: none is stated. */
  readonly leastTextPixels?: number
}

export interface PlacedHole {
  readonly hole: SectionHole
  readonly collar: OnSection
  readonly foot: OnSection
  /** From collar to foot as it runs; where it leaves the limit, the piece is left out. */
  readonly path: readonly (OnSection | null)[]
  /** Part of it lies beyond the limit or the ends of the line: `collar` and `foot` are where its shown part begins and ends. */
  readonly leaves: boolean
}

/** Where a hole stands along the section at a level: by its course, so that layers lean with a hole that leans. */
export function chainageAtLevel({ path, collar, foot }: PlacedHole, levelMetres: number): number {
  if (levelMetres >= collar.levelMetres) return collar.chainageMetres
  for (let place = 1; place < path.length; place++) {
    const [above, below] = [path[place - 1], path[place]]
    if (!above || !below || below.levelMetres > levelMetres || above.levelMetres <= below.levelMetres)
      continue
    const share = (above.levelMetres - levelMetres) / (above.levelMetres - below.levelMetres)
    if (share < 0) continue
    return above.chainageMetres + share * (below.chainageMetres - above.chainageMetres)
  }
  return foot.chainageMetres
}

export interface PlacedPoint {
  readonly point: SectionPoint
  readonly on: OnSection
}

export interface SectionLayout extends SectionSize {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly lengthMetres: number
  readonly lowMetres: number
  readonly highMetres: number
  /** Vertical scale over horizontal: 1 is true. */
  readonly verticalExaggeration: number
  readonly x: (chainageMetres: number) => number
  readonly y: (levelMetres: number) => number
  readonly holes: readonly PlacedHole[]
  readonly points: readonly PlacedPoint[]
  readonly cuts: readonly WorksCut[]
}

/** Lines of hole names above the section: fewer where it is low. */
export const holeNameLanes = (size: SectionSize): number => (size.heightPixels < 26 * size.fontPixels ? 2 : 4)

const roundExaggerations = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20]

/** Brings everything onto the section and gives it its scales. */
export function layOutSection(props: SectionProps, size: SectionSize): SectionLayout {
  const font = size.fontPixels
  const lengthMetres = lengthOfLine(props.line)
  const holes = placeHoles(props)
  const points = placePoints(props)
  const cuts = worksAlongSection(props.line, props.works, props.grid, null)
  const [lowMetres, highMetres] = levelReach(props, holes, points, cuts)
  const left = font * 4
  const right = size.widthPixels - font * 1.5
  const top = font * (1.4 + 1.25 * holeNameLanes(size))
  const bottom = size.heightPixels - font * 5.6
  const perMetreAcross = (right - left) / Math.max(lengthMetres, 1)
  const perMetreUp = (bottom - top) / Math.max(highMetres - lowMetres, 1)
  const fits = perMetreUp / perMetreAcross
  const scales = scaleFor(props.trueScale, fits, perMetreAcross, perMetreUp)
  // What does not fill the room stands in its middle.
  const startX = left + (right - left - scales.across * lengthMetres) / 2
  const startY = bottom - (bottom - top - scales.up * (highMetres - lowMetres)) / 2
  return {
    ...size,
    left,
    right,
    top,
    bottom,
    lengthMetres,
    lowMetres,
    highMetres,
    verticalExaggeration: scales.up / scales.across,
    x: (chainage) => startX + chainage * scales.across,
    y: (level) => startY - (level - lowMetres) * scales.up,
    holes,
    points,
    cuts,
  }
}

/** Scales in pixels a metre: equal when true, else the largest round exaggeration that fits. */
function scaleFor(trueScale: boolean, fits: number, across: number, up: number) {
  if (trueScale || fits <= 1) {
    const both = Math.min(across, up)
    return { across: both, up: both }
  }
  const times = roundExaggerations.findLast((one) => one <= fits) ?? 1
  return { across, up: across * times }
}

/** Holes near the line. Of one that leaves the section the part within is kept: what lies outside is not drawn, and said. */
export function placeHoles(
  props: Pick<SectionProps, 'holes' | 'line' | 'offsetLimitMetres'>,
): readonly PlacedHole[] {
  return props.holes.flatMap((hole) => {
    if (!(hole.lengthMetres > 0)) return []
    const along = (closely: boolean) =>
      projectOntoSection(
        props.line,
        depthsToDraw(hole, closely).map((depth) => positionAtDepth(hole, depth)),
        props.offsetLimitMetres,
      )
    const ends = along(false)
    const whole = ends.every((on) => on !== null)
    const path = whole ? ends : along(true)
    const within = path.filter((on) => on !== null)
    const [collar, foot] = [within[0], within.at(-1)]
    return collar && foot ? [{ hole, collar, foot, path, leaves: !whole }] : []
  })
}

/** Both ends of a straight hole; along a surveyed one, or one that leaves the section, about every metre. */
function depthsToDraw({ survey, lengthMetres }: SectionHole, closely: boolean): readonly number[] {
  const many = closely || (survey && survey.length > 0)
  const pieces = many ? Math.min(Math.max(Math.ceil(lengthMetres), 1), 200) : 1
  return Array.from({ length: pieces + 1 }, (_, piece) => (lengthMetres * piece) / pieces)
}

/** Nothing of the site lies on the section: no hole, no point, no works. */
export const crossesNothing = (
  props: Pick<SectionProps, 'wells' | 'line' | 'offsetLimitMetres'>,
  { holes, points, cuts }: Pick<SectionLayout, 'holes' | 'points' | 'cuts'>,
): boolean =>
  holes.length === 0 &&
  points.length === 0 &&
  cuts.every(({ works }) => works.kind === 'boundary') &&
  projectOntoSection(
    props.line,
    props.wells.map((well) => ({ ...well, levelMetres: 0 })),
    props.offsetLimitMetres,
  ).every((on) => on === null)

function placePoints(props: SectionProps): PlacedPoint[] {
  return projectOntoSection(props.line, props.points, props.offsetLimitMetres).flatMap((on, place) => {
    const point = props.points[place]
    return on && point ? [{ point, on }] : []
  })
}

function levelReach(
  props: SectionProps,
  holes: readonly PlacedHole[],
  points: readonly PlacedPoint[],
  cuts: readonly WorksCut[],
): [number, number] {
  const levels = [
    props.groundLevelMetres,
    ...holes.flatMap(({ collar, foot }) => [collar.levelMetres, foot.levelMetres]),
    ...points.map(({ on }) => on.levelMetres),
    ...cuts.flatMap((cut) => [cut.topLevelMetres ?? Number.NaN, cut.baseLevelMetres ?? Number.NaN]),
  ]
  const reach = extentOf(levels) ?? { low: -10, high: 5 }
  return [Math.floor(Math.min(reach.low, props.groundLevelMetres - 5)) - 1, Math.ceil(reach.high) + 1]
}
