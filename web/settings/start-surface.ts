import { onCleanup } from 'solid-js'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { nodesAcross } from '#domain/ground/coarse-grid.ts'
import type { SurfaceAspect } from '#domain/ground/surface-aspects.ts'
import type { SurfaceMethod } from '#domain/ground/surface-methods.ts'
import { computedNote } from '../derived/ground/computed-note.ts'
import { withDifferences } from '../derived/ground/difference-marks.ts'
import { measuredAndComputed } from '../derived/ground/measured-and-computed.ts'
import { type Derivation, openDerivation } from '../derived/open-derivation.ts'
import { surfaceDrawing } from '../derived/surface-drawing.ts'
import { analysis, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { changeSinceEpochMs } from '../state/change-since.ts'
import { computedSinceEpochMs } from '../state/computed-since.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { reportSurfaceProgress, reportSurfaceTrouble, showSurface } from '../state/plan-surface.ts'
import { type GridPoint, sectionLine } from '../state/section-line.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { surfaceAspect, surfaceMethod, surfaceStratum } from '../state/surface-choice.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'
import { subjectOf, type Wanted as WantedSubject } from './surface-subjects.ts'

/** Sides of the triangulation longer than this say nothing between their ends; water levels out over farther than ground. */
const longestSideMetres = { settlement: 40, change: 40, water: 120, computed: 120 } as const

/** Around a point without a current value nothing is shown, as far as its neighbours stand in most places. */
const silentRadiusMetres = 10

/** Sooner, progress would only flicker; and nobody reaches for a button. */
const [progressAfterMs, stopAfterMs] = [1000, 5000] as const

interface Wanted extends WantedSubject {
  readonly method: SurfaceMethod
  readonly aspect: SurfaceAspect
  readonly stratum: string | null
  readonly line: readonly GridPoint[]
}

/** Keeps the surface that the plan shows in step with clock, layers, method and the earlier of the two times. */
export function startSurface(): void {
  const derivation = openDerivation()
  let now: Wanted | null = null
  let running: { readonly wanted: Wanted; readonly ended: AbortController } | null = null
  /** An answer is shown while the clock runs past it, but never as another quantity, nor once none is wanted. */
  const isWanted = ({ of }: Wanted) => now?.of === of
  const ask = newestNext(
    async (wanted: Wanted) => {
      const ended = new AbortController()
      running = { wanted, ended }
      const sinceMs = performance.now()
      try {
        return await workOut(wanted, derivation, {
          signal: ended.signal,
          progress(share) {
            const runsMs = performance.now() - sinceMs
            const stop = () => ended.abort(new SurfaceStopped())
            if (runsMs > progressAfterMs)
              reportSurfaceProgress({ share, stop: runsMs > stopAfterMs ? stop : null })
          },
        })
      } finally {
        running = null
        reportSurfaceProgress(null)
      }
    },
    (found, wanted) => {
      if (found && isWanted(wanted)) showSurface(found)
    },
    (cause, wanted) => {
      if (cause instanceof SurfaceStopped) reportSurfaceTrouble(cause.message)
      else if (cause instanceof DOMException && cause.name === 'AbortError') return
      else if (isWanted(wanted))
        reportSurfaceTrouble(`Contours could not be worked out: ${sentenceOf(cause)}`)
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
      slicesRevision()
      const sinceEpochMs =
        of === 'change' ? changeSinceEpochMs() : of === 'computed' ? computedSinceEpochMs() : null
      return {
        of,
        atEpochMs: at,
        sinceEpochMs,
        // Few strings and no known error of theirs: nothing but straight lines can be stood for.
        method: of === 'computed' ? 'linear' : surfaceMethod(),
        aspect: of === 'settlement' || of === 'change' ? surfaceAspect() : 'values',
        stratum: surfaceStratum(),
        line: sectionLine(),
      }
    },
    (wanted) => {
      if (wanted?.of !== now?.of) showSurface(null)
      now = wanted
      if (running && !(wanted && isSameButForTime(running.wanted, wanted)))
        running.ended.abort(new DOMException('Another surface is wanted.', 'AbortError'))
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

class SurfaceStopped extends Error {
  constructor() {
    super(
      'The surface was stopped before it was worked out. Choose another way between points, or move the clock, and one is drawn.',
    )
  }
}

/** A clock that runs on lets what runs finish, or nothing would ever be shown; anything else that changes does not. */
const isSameButForTime = (one: Wanted, other: Wanted) =>
  one.of === other.of &&
  one.sinceEpochMs === other.sinceEpochMs &&
  one.method === other.method &&
  one.aspect === other.aspect &&
  one.stratum === other.stratum &&
  one.line === other.line

const slopeHeadings = {
  slope: 'Slope of the ground, mm per metre',
  distortion: 'Angular distortion of the ground, mm per metre',
} as const

async function workOut(wanted: Wanted, derivation: Derivation, watch: Parameters<Derivation['surface']>[1]) {
  const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
  if (!document || !grid || !on) return null
  const subject = await subjectOf(wanted)
  if (!subject) return null
  const request = {
    points: subject.points,
    unit: subject.unit,
    method: wanted.method,
    barriers: barriersAt(document.works, grid, wanted.atEpochMs),
    longestSideMetres: longestSideMetres[wanted.of],
    silentRadiusMetres,
    nodes: nodesAcross(subject.points),
    aspect: wanted.aspect,
    ofHeads: wanted.of === 'water',
    at: (subject.computed?.measured ?? []).map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    ),
    sectionLine: wanted.line.map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    ),
  }
  watch?.signal?.throwIfAborted()
  const outcome = await derivation.surface(request, watch)
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
