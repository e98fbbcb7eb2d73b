import { pointAtChainage } from '#domain/geometry/alignment.ts'
import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { WorksCut } from '#domain/geometry/line-of-works.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { WorksProperties } from '#domain/site/site.ts'
import { formatValue } from '../../ui/format-value.ts'
import { box, dot, line, type Mark, path, pathThrough } from '../marks/mark.ts'
import type { WantedLabel } from '../marks/place-labels.ts'
import type { SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

type Phase = 'there' | 'to-come' | 'gone'

/** The works that the line cuts, as they stand at the clock; what is to come is dashed, what is gone left out. */
export function worksMarks(props: SectionProps, layout: SectionLayout, wanted: WantedLabel[]): Mark[] {
  const order = ['dock', 'excavation', 'building', 'obstruction', 'wall', 'tunnel', 'service']
  const marks: Mark[] = []
  const drawnExcavations = new Set<string>()
  for (const kind of order) {
    for (const cut of layout.cuts) {
      if (cut.works.kind !== kind) continue
      const phase = phaseAt(cut.works, props.clockEpochMs)
      if (phase === 'gone') continue
      if (kind === 'excavation' && phase === 'there') drawnExcavations.add(cut.works.id)
      marks.push(...cutMarks(props, layout, cut, phase, wanted))
    }
    if (kind === 'tunnel') marks.push(...tunnelMarks(props, layout, wanted))
  }
  return marks
}

function phaseAt(works: WorksProperties, atEpochMs: number): Phase {
  if (works.fromEpochMs !== null && atEpochMs < works.fromEpochMs) return 'to-come'
  return works.untilEpochMs !== null && atEpochMs >= works.untilEpochMs ? 'gone' : 'there'
}

/** True where works stand at an instant: begun, and not taken out. */
export const standsAt = (works: WorksProperties, atEpochMs: number): boolean =>
  phaseAt(works, atEpochMs) === 'there'

function cutMarks(
  props: SectionProps,
  layout: SectionLayout,
  cut: WorksCut,
  phase: Phase,
  wanted: WantedLabel[],
): Mark[] {
  const { kind, name } = cut.works
  if (kind === 'boundary' || kind === 'shore' || kind === 'tunnel') return []
  const from = layout.x(cut.fromChainageMetres)
  const until = layout.x(cut.untilChainageMetres)
  const top = layout.y(cut.topLevelMetres ?? props.groundLevelMetres)
  const base = layout.y(cut.baseLevelMetres ?? props.groundLevelMetres)
  const says = `${name}${phase === 'to-come' ? ' (to come)' : ''}: chainage ${formatValue(cut.fromChainageMetres, 1)} to ${formatValue(cut.untilChainageMetres, 1)} m${levelsText(cut)}`
  const className = `works works-${kind} ${phase}`
  const middle = (from + until) / 2
  if (kind === 'service') {
    const radius = layout.fontPixels * 0.35
    wanted.push(nameLabel(layout, middle, (top + base) / 2, name, 2))
    return [dot(className, middle, (top + base) / 2, radius, says)]
  }
  // A wall crossed at a point, or thinner than a line can be drawn, is still to be seen.
  const least = kind === 'wall' || kind === 'dock' ? 4 : 1.5
  const half = Math.max(least, until - from) / 2
  const marks = [box(className, [middle - half, top, middle + half, base], says)]
  if (kind === 'excavation' && phase === 'there') {
    marks.push(line('formation', from, base, until, base))
    wanted.push({
      x: middle,
      y: base - layout.fontPixels * 0.8,
      text: `${name}`,
      className: 'works-name',
      clearPixels: 0,
      weight: 30,
    })
  } else if (kind === 'building' || kind === 'obstruction')
    wanted.push({
      x: middle,
      y: (top + layout.y(props.groundLevelMetres)) / 2,
      text: name,
      className: 'works-name',
      clearPixels: 0,
      weight: 10,
    })
  else if (kind === 'dock' && until - from > layout.fontPixels * 4) {
    wanted.push({
      x: middle,
      y: (top + base) / 2,
      text: name,
      className: 'works-name',
      clearPixels: 0,
      weight: 9,
    })
  } else if (kind === 'wall' && phase === 'there')
    wanted.push({ x: middle, y: base, text: name, className: 'works-name', clearPixels: half + 4, weight: 8 })
  return marks
}

/**
 * A tunnel is a round bore about its alignment: where the section passes within its radius, the bore's top and
 * base there. Square to it that is a circle, along it a band.
 */
function tunnelMarks(props: SectionProps, layout: SectionLayout, wanted: WantedLabel[]): Mark[] {
  const marks: Mark[] = []
  for (const { geometry, properties } of props.works.features) {
    if (properties.kind !== 'tunnel' || geometry.type !== 'LineString') continue
    const { topLevelMetres: top, baseLevelMetres: base } = properties
    if (top === null || base === null) continue
    const phase = phaseAt(properties, props.clockEpochMs)
    if (phase === 'gone') continue
    const axis = props.alignments.find(({ id }) => id === properties.id)
    if (!axis) continue
    for (const bore of boresAlong(props.line, layout.lengthMetres, axis.stationOf, (top - base) / 2)) {
      const middle = (top + base) / 2
      const upper = bore.map(([chainage, half]) => [layout.x(chainage), layout.y(middle + half)] as const)
      const lower = bore.map(([chainage, half]) => [layout.x(chainage), layout.y(middle - half)] as const)
      const says = `${properties.name}${phase === 'to-come' ? ' (to come)' : ''}, axis at ${formatValue(middle, 1)} m`
      marks.push(path(`works works-tunnel ${phase}`, `${pathThrough([...upper, ...lower.reverse()])}Z`, says))
      const [chainage] = bore[Math.floor(bore.length / 2)] ?? [0, 0]
      wanted.push({
        x: layout.x(chainage),
        y: layout.y(base) + layout.fontPixels * 0.8,
        text: properties.name,
        className: 'works-name',
        clearPixels: 0,
        weight: 12,
      })
    }
  }
  return marks
}

/** Runs of chainage and half height where a line passes through a bore of that radius about an axis. */
export function boresAlong(
  section: readonly SitePoint[],
  lengthMetres: number,
  besideAxis: WorksAlignment['stationOf'],
  radiusMetres: number,
): (readonly [chainageMetres: number, halfHeightMetres: number])[][] {
  const step = Math.max(radiusMetres / 12, lengthMetres / 4000)
  const runs: [number, number][][] = []
  let run: [number, number][] = []
  for (let chainage = 0; chainage <= lengthMetres; chainage += step) {
    const at = pointAtChainage(section, chainage)
    const station = at && besideAxis(at)
    const away = station && station.beyond === null ? station.distanceMetres : Number.POSITIVE_INFINITY
    if (away < radiusMetres) run.push([chainage, Math.sqrt(radiusMetres ** 2 - away ** 2)])
    else if (run.length > 0) {
      runs.push(run)
      run = []
    }
  }
  if (run.length > 0) runs.push(run)
  return runs
}

const nameLabel = (
  layout: SectionLayout,
  x: number,
  y: number,
  text: string,
  weight: number,
): WantedLabel => ({
  x,
  y,
  text,
  className: 'works-name',
  clearPixels: layout.fontPixels * 0.6,
  weight,
})

function levelsText(cut: WorksCut): string {
  if (cut.topLevelMetres === null || cut.baseLevelMetres === null) return ''
  return `, from ${formatValue(cut.topLevelMetres, 1)} down to ${formatValue(cut.baseLevelMetres, 1)} m`
}
