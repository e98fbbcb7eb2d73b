import { onCleanup } from 'solid-js'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { barriersAt } from '../derived/barriers-at.ts'
import { pressureTips } from '../derived/ground/string-pressures.ts'
import { openDerivation } from '../derived/open-derivation.ts'
import { otherUnitsSentence, verdictSentence } from '../derived/said-of-values.ts'
import { pointUncertaintySentence, settlementPoints, settlementSeries } from '../derived/settlement-points.ts'
import { type SurfaceSubject, surfaceDrawing } from '../derived/surface-drawing.ts'
import { strataOfTips, waterPoints } from '../derived/water-points.ts'
import { settlementAt } from '../queries/settlement-at.ts'
import { analysis, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { changeSinceEpochMs } from '../state/change-since.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { reportSurfaceTrouble, showSurface } from '../state/plan-surface.ts'
import { sectionLine } from '../state/section-line.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { surfaceAspect, surfaceMethod, surfaceStratum } from '../state/surface-choice.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

/** Sides of the triangulation longer than this say nothing between their ends; water levels out over farther than ground. */
const longestSideMetres = { settlement: 40, change: 40, water: 120 } as const

/** Around a point without a current value nothing is shown, as far as its neighbours stand in most places. */
const silentRadiusMetres = 10

/** Fine enough that lines look smooth, coarse enough that they follow the clock. */
const nodesAcross = 160

interface Wanted {
  readonly of: 'settlement' | 'change' | 'water'
  readonly atEpochMs: number
  readonly sinceEpochMs: number | null
}

/** Keeps the surface that the plan shows in step with clock, layers, method and the earlier of the two times. */
export function startSurface(): void {
  const derivation = openDerivation()
  let now: Wanted | null = null
  /** An answer is shown while the clock runs past it, but never as another quantity, nor once none is wanted. */
  const isWanted = ({ of }: Wanted) => now?.of === of
  const ask = newestNext(
    (wanted: Wanted) => workOut(wanted, derivation),
    (found, wanted) => {
      if (found && isWanted(wanted)) showSurface(found)
    },
    (cause, wanted) => {
      if (isWanted(wanted)) reportSurfaceTrouble(`Contours could not be worked out: ${sentenceOf(cause)}`)
    },
  )
  sync(
    () => {
      const of = isLayerShown('change')
        ? 'change'
        : isLayerShown('water')
          ? 'water'
          : isLayerShown('contours')
            ? 'settlement'
            : null
      const at = clockEpochMs()
      if (!analysis() || at === null || of === null) return null
      surfaceAspect()
      surfaceMethod()
      surfaceStratum()
      sectionLine()
      slicesRevision()
      return { of, atEpochMs: at, sinceEpochMs: of === 'change' ? changeSinceEpochMs() : null } as const
    },
    (wanted) => {
      if (wanted?.of !== now?.of) showSurface(null)
      now = wanted
      if (!wanted) return
      if (wanted.sinceEpochMs !== null && wanted.sinceEpochMs >= wanted.atEpochMs)
        reportSurfaceTrouble(
          'The change would count from an instant that the clock has not reached. Take an earlier one.',
        )
      else ask(wanted)
    },
  )
  onCleanup(derivation.close)
}

const slopeHeadings = {
  slope: 'Slope of the ground, mm per metre',
  distortion: 'Angular distortion of the ground, mm per metre',
} as const

interface Subject extends SurfaceSubject {
  readonly points: readonly GroundPoint[]
  readonly unit: string
  /** Said after the surface's own note; null: nothing. */
  readonly afterNote: string | null
}

async function workOut(wanted: Wanted, derivation: ReturnType<typeof openDerivation>) {
  const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
  if (!document || !grid || !on) return null
  const subject = wanted.of === 'water' ? await waterAt(wanted) : await settlementsAt(wanted)
  if (!subject) return null
  const outcome = await derivation.surface({
    points: subject.points,
    unit: subject.unit,
    method: surfaceMethod(),
    barriers: barriersAt(document.works, grid, wanted.atEpochMs),
    longestSideMetres: longestSideMetres[wanted.of],
    silentRadiusMetres,
    nodes: nodesAcross,
    aspect: wanted.of === 'water' ? 'values' : surfaceAspect(),
    ofHeads: wanted.of === 'water',
    at: [],
    sectionLine: sectionLine().map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    ),
  })
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join(' '))
  const drawing = surfaceDrawing(outcome.value, subject, grid.toLngLat)
  const note = subject.afterNote === null ? drawing.note : `${drawing.note} ${subject.afterNote}`
  const { slopes, unit } = outcome.value
  const { what } = subject
  const plate = slopes === null ? `${what}, ${unit}` : `${slopeHeadings[slopes.aspect]}. ${what}`
  return { drawing: { ...drawing, note }, surface: { ...outcome.value, what, plate } }
}

async function settlementsAt({ atEpochMs, sinceEpochMs }: Wanted): Promise<Subject | null> {
  const [document, on] = [siteDocument(), analysis()]
  if (!document || !on) return null
  const series = settlementSeries(document.series, document.points)
  const { columns } = await on.keeper.ask(
    settlementAt({ atEpochMs, series: series.map((one) => one.series), sinceEpochMs }),
  )
  const change = sinceEpochMs !== null
  const points = settlementPoints(columns, series, document.points, atEpochMs, change)
  const zone = document.facts.timeZone
  return {
    points: points.map(({ valueMm, standardUncertaintyMm, ...rest }) => ({
      ...rest,
      value: valueMm,
      standardUncertainty: standardUncertaintyMm,
    })),
    unit: 'mm',
    what: change
      ? `Change of settlement from ${formatShortInstant(sinceEpochMs, zone)} to ${formatShortInstant(atEpochMs, zone)}`
      : `Settlement at ${formatShortInstant(atEpochMs, zone)}`,
    sense: 'positive is settlement',
    colouring: 'movement',
    afterNote: [
      pointUncertaintySentence(points, change),
      verdictSentence(
        document,
        series.map(({ id }) => id),
        atEpochMs,
      ),
      otherUnitsSentence(document, 'settlement', 'mm'),
    ]
      .filter((one) => one !== null)
      .join(' '),
  }
}

async function waterAt({ atEpochMs }: Wanted): Promise<Subject | null> {
  const [document, on] = [siteDocument(), analysis()]
  if (!document || !on) return null
  const tips = pressureTips(document, atEpochMs)
  const strata = strataOfTips(tips)
  const stratum = strata.find((one) => one === surfaceStratum()) ?? strata.at(-1) ?? null
  const { columns } = await on.keeper.ask(
    settlementAt({ atEpochMs, series: tips.map(({ series }) => series.series), sinceEpochMs: atEpochMs }),
  )
  const { unitWeightKnPerM3, sentence } = siteWater(document.facts)
  return {
    points: waterPoints(columns, tips, stratum, unitWeightKnPerM3, atEpochMs),
    unit: 'm',
    what: `Piezometric level in ${stratum ?? 'no stratum'} at ${formatShortInstant(atEpochMs, document.facts.timeZone)}`,
    sense: document.facts.verticalDatum.replace(/\.$/, ''),
    colouring: 'level',
    afterNote: [
      sentence,
      verdictSentence(
        document,
        tips.filter(({ point }) => point.stratum === stratum).map(({ series }) => series.id),
        atEpochMs,
      ),
      otherUnitsSentence(document, 'pore-pressure', 'kPa'),
    ]
      .filter((one) => one !== null)
      .join(' '),
  }
}
