import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { nodesAcross } from '#domain/ground/coarse-grid.ts'
import { groundMapSteps } from '#domain/ground/ground-map.ts'
import type { SurfaceAspect } from '#domain/ground/surface-aspects.ts'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { otherUnitsSentence, verdictSentence } from '../../derived/said-of-values.ts'
import {
  pointUncertaintySentence,
  settlementPoints,
  settlementSeries,
} from '../../derived/settlement-points.ts'
import { surfaceDrawing } from '../../derived/surface-drawing.ts'
import { lastOf } from '../../queries/often-read.ts'
import { settlementAt } from '../../queries/settlement-at.ts'
import { planFigureFromSite } from '../../views/plan-figure/plan-figure-from-site.ts'
import type { PlanFigureProps } from '../../views/plan-figure/plan-figure-props.ts'
import { planFigureScene } from '../../views/plan-figure/scene.ts'
import type { SurfaceDrawing } from '../../views/plan-map/layers/surface-layers.ts'
import { type Block, type Figure, heading, paragraph } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { countWords, wordsOf } from './report-words.ts'

/** As the page draws settlement: longer sides of the triangulation say nothing between their ends. */
const longestSideMetres = 40
/** Around a point without a current value nothing is shown. */
const silentRadiusMetres = 10
/** A surface needs points that stand round some ground. */
const leastPoints = 3

/** The site at the end of the period: how its points stand, its settlement, and the change of that in the period. */
export async function planPart(sources: ReportSources, readings: ReportReadings): Promise<readonly Block[]> {
  const { manifest, now } = sources
  const { site } = now
  const words = wordsOf(sources)
  const part = heading(1, 'Plan')
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!grid.ok) return [part, paragraph('The grid of the site cannot be read, so no plan is drawn.')]
  const standing = planFigureFromSite(site, readings.atEnd, { atEpochMs: manifest.untilEpochMs })
  if (!standing.ok) return [part, paragraph(standing.issues.map(({ message }) => message).join(' '))]
  const blocks: Block[] = [
    part,
    planFigure(
      standing.value,
      `The site, ${words.at(manifest.untilEpochMs)}: how measuring points stand`,
      standingAlternative(standing.value),
    ),
  ]
  const series = settlementSeries(site.series, site.points)
  if (series.length < leastPoints)
    return [
      ...blocks,
      paragraph(
        `${countWords(series.length, 'point')} of levelled settlement: between so few no surface can be drawn, and nothing is told of the ground between them.`,
      ),
    ]
  for (const sinceEpochMs of [null, manifest.fromEpochMs])
    blocks.push(...(await settlementBlocks(sources, readings, grid.value, sinceEpochMs)))
  return blocks
}

async function settlementBlocks(
  sources: ReportSources,
  readings: ReportReadings,
  grid: SiteGrid,
  sinceEpochMs: number | null,
): Promise<readonly Block[]> {
  const { manifest, now } = sources
  const atEpochMs = manifest.untilEpochMs
  const title = heading(2, sinceEpochMs === null ? 'Settlement' : 'Change of settlement in the period')
  const { what, drawing, sentences } = await settlementDrawn(sources, grid, {
    atEpochMs,
    sinceEpochMs,
    method: surfaceMethods[0],
    aspect: 'values',
  })
  const notes = sentences.map((sentence) => paragraph(sentence))
  if (drawing === null) return [title, ...notes]
  const plan = planFigureFromSite(now.site, readings.atEnd, {
    atEpochMs,
    showNames: false,
    surface: drawing.surface,
  })
  return plan.ok ? [title, planFigure(plan.value, what, drawing.alternative), ...notes] : []
}

interface SettlementAsked {
  readonly atEpochMs: number
  /** Instant that a change counts from; null: settlement itself. */
  readonly sinceEpochMs: number | null
  readonly method: SurfaceMethod
  readonly aspect: SurfaceAspect
}

/** The settlement of a frozen site as contours, with what must be said of them; no drawing: why there is none. */
export async function settlementDrawn(
  { now, ask }: Pick<ReportSources, 'now' | 'ask'>,
  grid: SiteGrid,
  { atEpochMs, sinceEpochMs, method, aspect }: SettlementAsked,
): Promise<{
  readonly what: string
  readonly drawing: { readonly surface: SurfaceDrawing; readonly alternative: string } | null
  readonly sentences: readonly string[]
}> {
  const { site } = now
  const words = wordsOf({ now })
  const change = sinceEpochMs !== null
  const what = change
    ? `Change of settlement from ${words.at(sinceEpochMs)} to ${words.at(atEpochMs)}`
    : `Settlement at ${words.at(atEpochMs)}`
  const series = settlementSeries(site.series, site.points)
  const columns = await ask('now', settlementAt({ atEpochMs, ...lastOf(series), sinceEpochMs }))
  const points = settlementPoints(columns, series, site, atEpochMs, change)
  const ground = points.map(({ valueMm, standardUncertaintyMm, ...rest }) => ({
    ...rest,
    value: valueMm,
    standardUncertainty: standardUncertaintyMm,
  }))
  const surface = finish(
    groundMapSteps({
      points: ground,
      unit: 'mm',
      method,
      barriers: barriersAt(site.works, grid, atEpochMs),
      longestSideMetres,
      silentRadiusMetres,
      nodes: nodesAcross(ground),
      aspect,
      ofHeads: false,
      at: [],
      sectionLine: [],
    }),
  )
  if (!surface.ok)
    return {
      what,
      drawing: null,
      sentences: [`${what}: no contours. ${surface.issues.map(({ message }) => message).join(' ')}`],
    }
  const drawn = surfaceDrawing(
    surface.value,
    { what, sense: 'positive is settlement', colouring: 'movement' },
    grid.toLngLat,
  )
  const known = points.filter(({ valueMm, late }) => valueMm !== null && !late)
  const most = known.toSorted((one, other) => (other.valueMm ?? 0) - (one.valueMm ?? 0))[0]
  return {
    what,
    drawing: {
      surface: drawn,
      alternative: `${what}: contours through ${surface.value.pointsUsed.length} levelled points, drawn only where points stand near each other on the same side of every wall.${most ? ` The most is ${(most.valueMm ?? 0).toFixed(1).replace('-', '−')} mm at ${most.id}.` : ''}`,
    },
    sentences: [
      drawn.note,
      pointUncertaintySentence(points, change),
      verdictSentence(
        site,
        series.map(({ id }) => id),
        atEpochMs,
      ),
      otherUnitsSentence(site, 'settlement', 'mm'),
    ].filter((one) => one !== null),
  }
}

export const planFigure = (props: PlanFigureProps, caption: string, alternative: string): Figure => ({
  block: 'figure',
  caption,
  alternative,
  scope: 'plan-figure',
  scene: (room) => planFigureScene(props, room),
  aspect: 1.15,
  tableId: 'values',
  wide: true,
})

export function standingAlternative({ symbols, levelNames }: PlanFigureProps): string {
  const counts = new Map<string, number>()
  for (const { standing } of symbols) counts.set(standing, (counts.get(standing) ?? 0) + 1)
  const told = [...counts]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([standing, count]) => `${count} ${namesOfStanding(standing, levelNames)}`)
  return `Plan of the works with ${symbols.length} instruments: ${told.join(', ')}.`
}

const namesOfStanding = (standing: string, levelNames: readonly string[]): string =>
  standing.startsWith('level-')
    ? `at ${levelNames[Number(standing.slice(6)) - 1] ?? standing}`
    : ({
        late: 'without current data',
        'out-of-use': 'out of use',
        within: 'within levels',
        'no-level': 'without a level',
      }[standing] ?? 'not known')

/** Runs a computation that pauses between its steps to its end. */
function finish<T>(steps: Generator<number, Outcome<T>>): Outcome<T> {
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
  }
}
