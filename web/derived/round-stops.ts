import type { FieldGuide } from '#contract/field-guide.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { dueWork, type Errand, type SensorToVisit } from '#domain/field/due-work.ts'
import { metresBetween, type Place } from '#domain/field/straight-distance.ts'
import { type Stop, walkingOrder } from '#domain/field/walking-order.ts'
import { groupBy } from '#domain/group-by.ts'

/** A place of the round, in the order in which to go there. */
export interface RoundStop extends Stop {
  readonly location: string
  readonly errands: readonly Errand[]
  /** Straight from the place before. */
  readonly legMetres: number
  /** Straight from where one stands; null where that is not known. */
  readonly awayMetres: number | null
}

export interface RoundChoice {
  /** Only what this crew or logger reads; null: everything. */
  readonly logger: string | null
  readonly nowEpochMs: number
  readonly horizonEpochMs: number
  /** Latest instant of a reading that waits on this device, by sensor. */
  readonly readHere: ReadonlyMap<string, number>
  readonly from: Place | null
}

/** Where to go, why, and in which order; nothing of a place whose location is not known. */
export function roundStops(
  document: SiteDocument,
  states: StateDocument,
  guide: FieldGuide,
  choice: RoundChoice,
): { readonly stops: readonly RoundStop[]; readonly totalMetres: number } {
  const bySensor = new Map(document.series.map((series) => [series.id, series]))
  const byNumber = new Map(states.states.map((state) => [state.series, state]))
  const sensors = guide.sensors.flatMap((sensor): SensorToVisit[] => {
    const series = bySensor.get(sensor.id)
    const logger = sensor.wiring?.logger ?? null
    if (!series || (choice.logger !== null && logger !== choice.logger)) return []
    const state = byNumber.get(series.series)
    const here = choice.readHere.get(sensor.id) ?? null
    return [
      {
        id: sensor.id,
        instrument: sensor.instrument,
        byHand: sensor.byHand,
        critical: series.critical,
        intervalMinutes: sensor.intervalMinutes,
        lastAtEpochMs: latest(state?.atEpochMs ?? null, here),
        late: (state?.late ?? true) && here === null,
        level: state?.level ?? null,
        logger,
        certificateDueAtEpochMs: sensor.certificateDueAtEpochMs,
      },
    ]
  })
  const errands = dueWork(sensors, choice.nowEpochMs, choice.horizonEpochMs)
  const instruments = new Map(document.instruments.map((one) => [one.id, one]))
  const places = new Map(document.locations.map((place) => [place.id, place]))
  const byLocation = groupBy(errands, ({ instrument }) => instruments.get(instrument)?.location ?? '')
  const stops = [...byLocation].flatMap(([location, here]) => {
    const place = places.get(location)
    if (!place) return []
    return [
      {
        id: location,
        location,
        eastingMetres: place.eastingMetres,
        northingMetres: place.northingMetres,
        urgency: Math.min(...here.map(({ urgency }) => urgency)),
        errands: here,
      },
    ]
  })
  const order = walkingOrder(choice.from, stops)
  const errandsAt = new Map(stops.map((stop) => [stop.id, stop.errands]))
  return {
    totalMetres: order.totalMetres,
    stops: order.stops.map((stop) => ({
      ...stop,
      location: stop.id,
      errands: errandsAt.get(stop.id) ?? [],
      awayMetres: choice.from === null ? null : metresBetween(choice.from, stop),
    })),
  }
}

const latest = (one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : Math.max(one, other)
