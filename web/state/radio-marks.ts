import { createMemo, createRoot } from 'solid-js'
import { type CoverageMark, coverageMarks } from '../derived/coverage-marks.ts'
import type { RadioMark } from '../views/plan-map/layers/radio-layers.ts'
import { isLayerShown } from './plan-layers.ts'
import { clockEpochMs } from './site-clock.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

/** Loggers and gateways, while their layer is shown. */
export const radioMarks = createRoot(() =>
  createMemo((): readonly RadioMark[] => {
    const document = siteDocument()
    if (!document || !isLayerShown('radio')) return []
    const places = new Map(document.locations.map((location) => [location.id, location]))
    const mark = (id: string, kind: RadioMark['kind'], location: string | null) => {
      const place = places.get(location ?? '')
      return place ? [{ id, kind, longitude: place.longitude, latitude: place.latitude }] : []
    }
    return [
      ...document.loggers
        .filter((logger) => logger.kind === 'logger')
        .flatMap((logger) => mark(logger.id, 'logger', logger.location)),
      ...document.gateways.flatMap((gateway) => mark(gateway.id, 'gateway', gateway.location)),
    ]
  }),
)

/** Day of the clock: coverage tests need no finer one, and their symbols are drawn again only when it changes. */
const clockDay = createRoot(() => createMemo(() => Math.ceil((clockEpochMs() ?? 0) / 86_400_000)))

/** Coverage tests made by the clock, while their layer is shown. */
export const coverageShown = createRoot(() =>
  createMemo((): readonly CoverageMark[] => {
    const document = siteDocument()
    const grid = siteGrid()
    if (!document || !grid || !isLayerShown('coverage')) return []
    return coverageMarks(document.coverageTests, clockDay() * 86_400_000, grid.toLngLat)
  }),
)
