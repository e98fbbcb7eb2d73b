import { onCleanup } from 'solid-js'
import { openDerivation } from '../derived/open-derivation.ts'
import { barriersAt } from '../derived/settlement-contours.ts'
import { pointUncertaintySentence, settlementPoints, settlementSeries } from '../derived/settlement-points.ts'
import { surfaceDrawing } from '../derived/surface-drawing.ts'
import { settlementAt } from '../queries/settlement-at.ts'
import { analysis, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { changeSinceEpochMs } from '../state/change-since.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { reportSurfaceTrouble, showSurface } from '../state/plan-surface.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

/** Sides of the triangulation longer than this say nothing of the ground between their ends. */
const longestSideMetres = 40

interface Wanted {
  readonly atEpochMs: number
  readonly sinceEpochMs: number | null
}

/** Keeps the contours that the plan shows in step with clock, layers and the earlier of the two times. */
export function startSurface(): void {
  const derivation = openDerivation()
  const ask = newestNext(
    (wanted: Wanted) => workOut(wanted, derivation),
    (drawing) => {
      if (drawing) showSurface(drawing)
    },
    (cause) => reportSurfaceTrouble(`Contours could not be worked out: ${sentenceOf(cause)}`),
  )
  sync(
    () => {
      const change = isLayerShown('change')
      const at = clockEpochMs()
      if (!analysis() || at === null || !(change || isLayerShown('contours'))) return null
      slicesRevision()
      return {
        atEpochMs: at,
        sinceEpochMs: change ? changeSinceEpochMs() : null,
      }
    },
    (wanted) => {
      if (wanted) ask(wanted)
      else showSurface(null)
    },
  )
  onCleanup(derivation.close)
}

async function workOut({ atEpochMs, sinceEpochMs }: Wanted, derivation: ReturnType<typeof openDerivation>) {
  const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
  if (!document || !grid || !on) return null
  const series = settlementSeries(document.series, document.points)
  const { columns } = await on.keeper.ask(
    settlementAt({ atEpochMs, series: series.map((one) => one.series), sinceEpochMs }),
  )
  const points = settlementPoints(columns, series, document.points, atEpochMs, sinceEpochMs !== null)
  const outcome = await derivation.contours({
    points,
    barriers: barriersAt(document.works, grid, atEpochMs),
    longestSideMetres,
  })
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join(' '))
  const zone = document.facts.timeZone
  const what =
    sinceEpochMs === null
      ? `Settlement at ${formatShortInstant(atEpochMs, zone)}`
      : `Change of settlement from ${formatShortInstant(sinceEpochMs, zone)} to ${formatShortInstant(atEpochMs, zone)}`
  const drawing = surfaceDrawing(outcome.value, what, grid.toLngLat)
  const uncertainty = pointUncertaintySentence(points, sinceEpochMs !== null)
  return uncertainty === null ? drawing : { ...drawing, note: `${drawing.note} ${uncertainty}` }
}
