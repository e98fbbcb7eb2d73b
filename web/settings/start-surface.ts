import { onCleanup } from 'solid-js'
import { nodesAcross } from '#domain/ground/coarse-grid.ts'
import { barriersAt } from '../derived/barriers-at.ts'
import { computedNote } from '../derived/ground/computed-note.ts'
import { withDifferences } from '../derived/ground/difference-marks.ts'
import { measuredAndComputed } from '../derived/ground/measured-and-computed.ts'
import { openDerivation } from '../derived/open-derivation.ts'
import { surfaceDrawing } from '../derived/surface-drawing.ts'
import { analysis, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { changeSinceEpochMs } from '../state/change-since.ts'
import { computedSinceEpochMs } from '../state/computed-since.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { reportSurfaceTrouble, showSurface } from '../state/plan-surface.ts'
import { sectionLine } from '../state/section-line.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { surfaceAspect, surfaceMethod, surfaceStratum } from '../state/surface-choice.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'
import { subjectOf, type Wanted } from './surface-subjects.ts'

/** Sides of the triangulation longer than this say nothing between their ends; water levels out over farther than ground. */
const longestSideMetres = { settlement: 40, change: 40, water: 120, computed: 120 } as const

/** Around a point without a current value nothing is shown, as far as its neighbours stand in most places. */
const silentRadiusMetres = 10

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
    (): Wanted | null => {
      const of = isLayerShown('change')
        ? 'change'
        : isLayerShown('water')
          ? 'water'
          : isLayerShown('computed')
            ? 'computed'
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
      const sinceEpochMs =
        of === 'change' ? changeSinceEpochMs() : of === 'computed' ? computedSinceEpochMs() : null
      return { of, atEpochMs: at, sinceEpochMs }
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

async function workOut(wanted: Wanted, derivation: ReturnType<typeof openDerivation>) {
  const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
  if (!document || !grid || !on) return null
  const subject = await subjectOf(wanted)
  if (!subject) return null
  const outcome = await derivation.surface({
    points: subject.points,
    unit: subject.unit,
    // Few strings and no known error of theirs: nothing but straight lines can be stood for.
    method: wanted.of === 'computed' ? 'linear' : surfaceMethod(),
    barriers: barriersAt(document.works, grid, wanted.atEpochMs),
    longestSideMetres: longestSideMetres[wanted.of],
    silentRadiusMetres,
    nodes: nodesAcross(subject.points),
    aspect: wanted.of === 'settlement' || wanted.of === 'change' ? surfaceAspect() : 'values',
    ofHeads: wanted.of === 'water',
    at: (subject.computed?.measured ?? []).map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    ),
    sectionLine: sectionLine().map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    ),
  })
  if (!outcome.ok)
    throw new Error(
      [
        ...outcome.issues.map((issue) => issue.message),
        ...(subject.computed === null ? [] : computedNote(subject.computed.strings, null)),
      ].join(' '),
    )
  const drawing = surfaceDrawing(outcome.value, subject, grid.toLngLat)
  const note = subject.afterNote === null ? drawing.note : `${drawing.note} ${subject.afterNote}`
  const { slopes, unit } = outcome.value
  const { what } = subject
  const plate = slopes === null ? `${what}, ${unit}` : `${slopeHeadings[slopes.aspect]}. ${what}`
  if (subject.computed === null)
    return { drawing: { ...drawing, note }, surface: { ...outcome.value, what, plate, computed: null } }
  const { strings, measured } = subject.computed
  const compared = measuredAndComputed(measured, outcome.value.valuesAt, subject.points)
  return {
    drawing: withDifferences({ ...drawing, note }, strings, compared, grid.toLngLat),
    surface: { ...outcome.value, what, plate, computed: { strings, compared } },
  }
}
