import type { Driver, LoggerRecord, Neighbour, ReviewCase, Trace } from '#domain/review/review-case.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { randomFrom } from '../statistics/random-values.ts'

export const hourMs = 3_600_000
export const fromEpochMs = Date.UTC(2031, 3, 1)

/** What is measured as a function of the hours since the stretch began. */
export type Course = (hours: number) => number

export interface Read {
  readonly measure: Measure
  readonly course: Course
  readonly point?: string
  /** Between readings. */
  readonly everyHours?: number
}

/** Unit, digits after the point and scatter that such instruments have: common practice, no published source. */
const kinds: Partial<Record<Measure, { unit: string; decimals: number; scatter: number }>> = {
  settlement: { unit: 'mm', decimals: 2, scatter: 0.3 },
  tilt: { unit: 'deg', decimals: 4, scatter: 0.002 },
  opening: { unit: 'mm', decimals: 3, scatter: 0.01 },
  'pore-pressure': { unit: 'kPa', decimals: 2, scatter: 0.08 },
  temperature: { unit: 'degC', decimals: 1, scatter: 0.1 },
  'barometric-pressure': { unit: 'kPa', decimals: 3, scatter: 0.01 },
  'tide-level': { unit: 'm', decimals: 2, scatter: 0.02 },
}

export type World = ReturnType<typeof makeWorld>

/** Weather, water and readings of a made site, the same for the same seed. Nothing in it is taken from a real one. */
export function makeWorld(seed: number, days: number) {
  const random = randomFrom(seed)
  const between = (low: number, high: number) => low + (high - low) * random.uniform()
  const byDay = (scatter: number, hold: number) => {
    const all: number[] = [scatter * random.gaussian()]
    for (let day = 0; day < days + 20; day++)
      all.push(hold * (all.at(-1) as number) + scatter * Math.sqrt(1 - hold * hold) * random.gaussian())
    return (hours: number) => {
      const day = Math.max(0, hours / 24 + 5)
      const [at, share] = [Math.floor(day), (1 - Math.cos(Math.PI * (day % 1))) / 2]
      return (all[at] ?? 0) * (1 - share) + (all[at + 1] ?? 0) * share
    }
  }
  const [spells, clouds, fronts, wander] = [byDay(2, 0.7), byDay(0.3, 0.3), byDay(0.9, 0.6), byDay(1, 0.95)]
  const wave = (hours: number, period: number, late = 0) => Math.sin((2 * Math.PI * (hours - late)) / period)
  const airDegC: Course = (h) => 14 + spells(h) + 5 * (1 + clouds(h)) * wave(h, 24, 9)
  const airKpa: Course = (h) => 101.3 + fronts(h)
  const tideMetres: Course = (h) => 1.5 * wave(h, 12.42) * (1 + 0.25 * wave(h, 354.4))
  const trace = ({ measure, course, point = 'X-1', everyHours = 1 }: Read): Trace => {
    const { unit, decimals, scatter } = kinds[measure] ?? { unit: '', decimals: 2, scatter: 0.1 }
    const hours = Array.from({ length: Math.floor((days * 24) / everyHours) }, (_, at) => at * everyHours)
    return {
      series: `${point}/${measure}`,
      point,
      measure,
      unit,
      intervalMinutes: everyHours * 60,
      standardUncertainty: scatter,
      repeatability: scatter,
      atEpochMs: hours.map((hour) => fromEpochMs + hour * hourMs),
      values: hours.map((hour) => Number((course(hour) + scatter * random.gaussian()).toFixed(decimals))),
    }
  }
  const driver = (kind: Driver['kind'], measure: Measure, course: Course): Driver => ({
    ...trace({ measure, course, point: kind }),
    kind,
  })
  return {
    random,
    between,
    wander,
    airDegC,
    airKpa,
    tideMetres,
    hours: days * 24,
    trace,
    drivers: [
      driver('air-temperature', 'temperature', airDegC),
      driver('air-pressure', 'barometric-pressure', airKpa),
      driver('tide', 'tide-level', tideMetres),
    ],
    /** Points beside: none to three, at distances from `nearest` metres on. */
    beside(
      read: (distanceMetres: number, place: number) => Read,
      count: number,
      nearest: number,
    ): Neighbour[] {
      let distanceMetres = nearest
      return Array.from({ length: count }, (_, place) => {
        distanceMetres *= place === 0 ? 1 : between(1.1, 1.8)
        const one = trace({ ...read(distanceMetres, place), point: `N-${place + 1}` })
        return { ...one, distanceMetres, aboveMetres: 0, sameStratum: true }
      })
    },
    logger: (change: Partial<LoggerRecord> = {}): LoggerRecord => ({
      logger: 'L-1',
      due: days * 24,
      inTime: days * 24 - 3,
      later: 0,
      longestSilence: null,
      clockSecondsPerDay: { value: 0.4, low: -0.5, high: 1.3 },
      battery: { volts: 3.6, leastVolts: 3, atEpochMs: fromEpochMs + days * 24 * hourMs },
      silentBeside: { silent: 0, of: 2 },
      ...change,
    }),
    caseOf: (subject: Trace, given: Partial<ReviewCase> = {}): ReviewCase => ({
      fromEpochMs,
      untilEpochMs: fromEpochMs + days * 24 * hourMs,
      subject,
      lateAfterMinutes: 180,
      resolution: 10 ** -(kinds[subject.measure]?.decimals ?? 2),
      range: null,
      same: [],
      other: [],
      ofLogger: [],
      drivers: [],
      byHand: [],
      checksums: [],
      airStandsInValues: null,
      timeZone: 'UTC',
      logger: null,
      networkKnown: true,
      foundBeside: [],
      notes: [],
      ...given,
    }),
  }
}
