import { createMemo, createSignal } from 'solid-js'
import type { FaceReport } from '#domain/ground/troughs/face-reports.ts'
import { fitLongitudinalTrough } from '#domain/ground/troughs/fit-longitudinal.ts'
import { assumedFaces, settlementsByFace, settlementsSince } from '../../derived/ground/face-places.ts'
import { pointsBesideLine } from '../../derived/ground/settled-places.ts'
import { settlementSeries } from '../../derived/settlement-points.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import type { DriveOfPanel } from './drive-of-panel.ts'
import { createReadingsOfSeries } from './series-readings.ts'

const zeroSoughtMs = 28 * 86_400_000

/** Points beside a tunnel that settle as its face goes by, and where a person states that it stood. */
export function createLongitudinal(tunnel: DriveOfPanel) {
  const beside = createMemo(() => {
    const document = siteDocument()
    const series = document ? settlementSeries(document.series, document.points) : []
    const on = tunnel.alignment()
    return on ? pointsBesideLine(tunnel.places() ?? [], series, on.stationOf) : []
  })
  const [wanted, choose] = createSignal<string | null>(null)
  const chosen = createMemo(() => {
    const id = wanted() ?? selectedPoint()?.id
    return beside().find((one) => one.id === id) ?? beside()[0] ?? null
  })
  const [alike, setAlike] = createSignal(0.5)
  /** The chosen point and those about as far from the line: along an even drive they settle alike, one after the other. */
  const together = createMemo(() => {
    const on = chosen()
    return on
      ? beside().filter(
          (one) => one === on || Math.abs(one.station.offsetMetres - on.station.offsetMetres) <= alike(),
        )
      : []
  })
  const { readings, remarks, waiting } = createReadingsOfSeries(() => {
    const at = clockEpochMs()
    return at === null
      ? null
      : {
          series: together().map(({ series }) => series),
          fromEpochMs: tunnel.sinceEpochMs() - zeroSoughtMs,
          untilEpochMs: at,
        }
  })
  const [stated, setStated] = createSignal<readonly FaceReport[] | null>(null)
  const faces = createMemo(() => {
    const on = tunnel.alignment()
    const recorded = tunnel.recorded()?.fromEpochMs ?? null
    return stated() ?? (on ? assumedFaces(on, recorded, siteDocument()?.stages ?? []) : [])
  })
  const settled = createMemo(() => {
    const read = readings()
    if (!read) return null
    return together().flatMap(({ id, series, station }) => {
      const own = read.get(series.series)
      const since = own ? settlementsSince(own, tunnel.sinceEpochMs()) : null
      return since ? [settlementsByFace({ id, chainageMetres: station.chainageMetres }, since, faces())] : []
    })
  })
  const outcome = createMemo(() => {
    const known = settled()
    return stated() !== null && known && known.length > 0 ? fitLongitudinalTrough(known.flat()) : null
  })
  const names = () =>
    together().length > 1 ? `${together().length} points like ${chosen()?.id}` : chosen()?.id
  return {
    beside,
    choose,
    chosen,
    alike,
    setAlike,
    together,
    stated,
    setStated,
    faces,
    settled,
    outcome,
    names,
    remarks,
    waiting,
  }
}
