import type { FieldGuide } from '#contract/field-guide.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { dueWork, type Errand, type SensorToVisit } from '#domain/field/due-work.ts'
import { type Stop, walkingOrder } from '#domain/field/walking-order.ts'
import { metresBetween, type Place } from '#domain/geometry/straight-distance.ts'
import { groupBy } from '#domain/group-by.ts'
import { isLate } from '#domain/levels/lateness.ts'
import { isSilent, readsWithoutValue } from '../ui/state-scale.ts'
import { openVerdictEffects } from './open-verdict-effects.ts'

/** A logger that asks for a person, by what is known of the network. */
export interface LoggerErrand {
  readonly logger: string
  /** 0: it is silent or about to be; 1: it is to be looked into. */
  readonly urgency: 0 | 1
  /** Whole sentences: what is wrong, what to do. */
  readonly remarks: readonly { readonly says: string; readonly toDo: string }[]
}

/** What asks for somebody, but has no place that is known. */
export interface Unplaced {
  readonly errands: readonly Errand[]
  readonly loggers: readonly LoggerErrand[]
}

/** A place of the round, in the order in which to go there. */
export interface RoundStop extends Stop {
  readonly location: string
  readonly errands: readonly Errand[]
  readonly loggers: readonly LoggerErrand[]
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
  /** Latest instant of a reading that this device knows of and the server did not refuse, by sensor. */
  readonly readHere: ReadonlyMap<string, number>
  readonly from: Place | null
}

/** Where to go, why, and in which order; what has no known place is given apart. */
export function roundStops(
  document: SiteDocument,
  states: StateDocument,
  guide: FieldGuide,
  choice: RoundChoice,
  loggers: readonly LoggerErrand[] = [],
): { readonly stops: readonly RoundStop[]; readonly totalMetres: number; readonly unplaced: Unplaced } {
  const bySensor = new Map(document.series.map((series) => [series.id, series]))
  const byNumber = new Map(states.states.map((state) => [state.series, state]))
  const sensors = guide.sensors.flatMap((sensor): SensorToVisit[] => {
    const series = bySensor.get(sensor.id)
    const logger = sensor.wiring?.logger ?? null
    if (!series || (choice.logger !== null && logger !== choice.logger)) return []
    const state = byNumber.get(series.series)
    const here = choice.readHere.get(sensor.id) ?? null
    const withoutValue = readsWithoutValue(state)
    // A reading that waits here came in time; whether it gives a value is known once it was reduced.
    const late = state?.late || (isSilent(state) && !withoutValue)
    return [
      {
        id: sensor.id,
        instrument: sensor.instrument,
        byHand: sensor.byHand,
        critical: series.critical,
        intervalMinutes: sensor.intervalMinutes,
        lastAtEpochMs: latest(state?.atEpochMs ?? null, here),
        late: late && isLate(here, choice.nowEpochMs, series.lateAfterMinutes),
        withoutValue,
        level: state?.level ?? null,
        logger,
        certificateDueAtEpochMs: sensor.certificateDueAtEpochMs,
      },
    ]
  })
  const errands = [
    ...dueWork(sensors, choice.nowEpochMs, choice.horizonEpochMs),
    // Whoever only reads what a crew or logger reads is not sent to look at something.
    ...(choice.logger === null ? orderedVisits(document, choice.nowEpochMs) : []),
  ]
  const instruments = new Map(document.instruments.map((one) => [one.id, one]))
  const places = new Map(document.locations.map((place) => [place.id, place]))
  const byLocation = groupBy(errands, ({ instrument }) => instruments.get(instrument)?.location ?? '')
  const standsAt = new Map(document.loggers.map(({ id, location }) => [id, location]))
  const loggersByLocation = groupBy(loggers, ({ logger }) => standsAt.get(logger) ?? '')
  const names = new Set([...byLocation.keys(), ...loggersByLocation.keys()])
  const at = (location: string) => ({
    errands: byLocation.get(location) ?? [],
    loggers: loggersByLocation.get(location) ?? [],
  })
  const unplaced = { errands: [] as Errand[], loggers: [] as LoggerErrand[] }
  const stops = [...names].flatMap((location) => {
    const place = places.get(location)
    const here = at(location)
    if (!place) {
      unplaced.errands.push(...here.errands)
      unplaced.loggers.push(...here.loggers)
      return []
    }
    return [
      {
        id: location,
        location,
        eastingMetres: place.eastingMetres,
        northingMetres: place.northingMetres,
        urgency: Math.min(...[...here.errands, ...here.loggers].map(({ urgency }) => urgency)),
      },
    ]
  })
  const order = walkingOrder(choice.from, stops)
  return {
    unplaced,
    totalMetres: order.totalMetres,
    stops: order.stops.map((stop) => ({
      ...stop,
      location: stop.id,
      ...at(stop.id),
      awayMetres: choice.from === null ? null : metresBetween(choice.from, stop),
    })),
  }
}

/** Visits that verdicts ask for and nobody has made, one errand an instrument. */
function orderedVisits(document: SiteDocument, nowEpochMs: number): readonly Errand[] {
  const asked = openVerdictEffects(document, nowEpochMs).filter(({ effect }) => effect === 'visit ordered')
  const seriesById = new Map(document.series.map((one) => [one.id, one]))
  const pointById = new Map(document.points.map((one) => [one.id, one]))
  const byInstrument = groupBy(asked, ({ verdict }) => {
    const point = seriesById.get(verdict.series)?.point ?? ''
    return pointById.get(point)?.instrument ?? point
  })
  return [...byInstrument].map(([instrument, ordered]) => ({
    instrument,
    kind: 'visit-ordered',
    urgency: 1,
    sensors: [...new Set(ordered.map(({ verdict }) => verdict.series))],
    dueAtEpochMs: Math.min(...ordered.map(({ verdict }) => verdict.at)),
    criticalWithoutData: false,
  }))
}

const latest = (one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : Math.max(one, other)
