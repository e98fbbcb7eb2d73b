import type { Cause } from '#domain/review/cause.ts'
import type { Driver, ReviewCase, SingleReading, Trace } from '#domain/review/review-case.ts'
import { type Course, fromEpochMs, hourMs, makeWorld, type World } from './made-world.ts'

/** A case about one reading, whose cause is known because it was made with it. */
export interface MadeReading {
  readonly kind: string
  readonly seed: number
  readonly truth: Cause
  readonly reviewed: ReviewCase
}

const whole = (world: World, low: number, high: number) => Math.floor(world.between(low, high + 0.999))
const sign = (world: World) => (world.random.uniform() < 0.5 ? 1 : -1)
const at = (trace: Trace, place: number, change: (value: number) => number): Trace => ({
  ...trace,
  values: trace.values.map((value, i) => (i === place ? change(value) : value)),
})
const asked = (trace: Trace, place: number, more: Partial<SingleReading> = {}): SingleReading => ({
  atEpochMs: trace.atEpochMs[place] as number,
  flags: 0,
  byHand: false,
  raw: null,
  ...more,
})

/** Pressures of one layer; other channels of its logger measure other things. */
function pressures(
  world: World,
  place: number,
  spoil: (trace: Trace) => Trace,
  shared: (distanceMetres: number) => Course = () => () => 0,
  count = whole(world, 0, 3),
) {
  const course =
    (distance: number): Course =>
    (h) =>
      80 + 1.2 * world.tideMetres(h - 2) + 0.8 * world.wander(h) + shared(distance)(h)
  const subject = spoil(world.trace({ measure: 'pore-pressure', course: course(0) }))
  const others = Array.from({ length: whole(world, 1, 3) }, (_, i) =>
    world.trace({
      measure: 'temperature',
      course: (h) => 11 + 0.2 * world.wander(h + 40 * i),
      point: `X-${i + 2}`,
    }),
  )
  return world.caseOf(subject, {
    same: world.beside(
      (distance) => ({ measure: 'pore-pressure', course: course(distance) }),
      count,
      world.between(3, 25),
    ),
    drivers: world.drivers,
    logger: world.logger(),
    ofLogger: others,
    reading: asked(subject, place),
  })
}

/** Levels of marks by hand, written down in metres; a value is what a mark went down by, in millimetres. */
function levelled(world: World, slip: (written: number) => number) {
  const [zero, everyHours] = [
    whole(world, 20_000, 90_000) / 1000 + 0.0123,
    world.random.uniform() < 0.5 ? 24 : 72,
  ]
  const course =
    (distance: number): Course =>
    (h) =>
      4 / (1 + Math.exp(-(h - 900) / 300)) / (1 + distance / 20)
  const read = (distance: number) => ({
    measure: 'settlement' as const,
    course: course(distance),
    everyHours,
  })
  const made = world.trace(read(0))
  const place = whole(world, 6, made.values.length - 6)
  const writtenAt = (i: number) => Number((zero - (made.values[i] as number) / 1000).toFixed(4))
  const raw = Number(slip(writtenAt(place)).toFixed(5))
  const reduced = (written: number) => (zero - written) * 1000
  const subject = at(made, place, () => reduced(raw))
  return world.caseOf(subject, {
    same: world.beside(read, whole(world, 0, 3), world.between(4, 20)),
    drivers: world.drivers,
    logger: null,
    reading: asked(subject, place, {
      byHand: true,
      raw: { raw, before: { raw: writtenAt(place - 1), value: reduced(writtenAt(place - 1)) } },
    }),
  })
}

const middle = (world: World) => whole(world, 60, world.hours - 60)
const size = (world: World, low = 4, high = 40) => sign(world) * world.between(low, high)

const makers: Readonly<Record<string, readonly [Cause, (world: World) => ReviewCase]>> = {
  'spike of one sensor': [
    'sensor',
    (world) => {
      const [place, by] = [middle(world), size(world)]
      return pressures(world, place, (trace) => at(trace, place, (value) => value + by))
    },
  ],
  'beyond its range': [
    'sensor',
    (world) => {
      const place = middle(world)
      const made = pressures(world, place, (trace) => at(trace, place, () => 350 + world.between(1, 90)))
      return { ...made, range: { low: 0, high: 350 } }
    },
  ],
  'touched at a visit': [
    'sensor',
    (world) => {
      const [place, by] = [middle(world), size(world)]
      const made = pressures(world, place, (trace) => at(trace, place, (value) => value + by))
      const instant = made.reading?.atEpochMs ?? 0
      return {
        ...made,
        notes: [
          {
            kind: 'visit',
            atEpochMs: instant + world.between(-3, 3) * hourMs,
            text: 'Cabinet cleaned',
            distanceMetres: 1,
          },
        ],
      }
    },
  ],
  'all channels of the logger': [
    'logger',
    (world) => {
      const [place, by] = [middle(world), size(world)]
      const made = pressures(world, place, (trace) => at(trace, place, (value) => value + by))
      return {
        ...made,
        ofLogger: made.ofLogger.map((trace) => at(trace, place, (value) => value + size(world, 2, 9))),
      }
    },
  ],
  'cells at their end': [
    'logger',
    (world) => {
      const [place, by] = [middle(world), size(world)]
      const made = pressures(world, place, (trace) => at(trace, place, (value) => value + by))
      return {
        ...made,
        ofLogger: made.ofLogger.map((trace, i) => (i === 0 ? at(trace, place, (value) => value + 4) : trace)),
        logger: world.logger({
          battery: {
            volts: world.between(2.5, 2.95),
            leastVolts: 3,
            atEpochMs: fromEpochMs + world.hours * hourMs,
          },
        }),
      }
    },
  ],
  'decimal point off': [
    'logger',
    (world) => levelled(world, (written) => written * (sign(world) > 0 ? 10 : 0.1)),
  ],
  'two digits swapped': [
    'logger',
    (world) =>
      levelled(world, (written) => {
        const digits = [...written.toFixed(4)]
        const dot = digits.indexOf('.')
        // Millimetres and the digits before them: what is swapped in a field book.
        for (const place of [dot + 2, dot + 1, dot - 2])
          if (digits[place] !== digits[place + 1] && digits[place + 1] !== '.') {
            const swap = [...digits]
            ;[swap[place], swap[place + 1]] = [swap[place + 1] as string, swap[place] as string]
            return Number(swap.join(''))
          }
        return written * 10
      }),
  ],
  'another unit': ['logger', (world) => levelled(world, (written) => written / 0.3048)],
  'within its scatter': [
    'ground',
    (world) => {
      const place = middle(world)
      return pressures(world, place, (trace) => trace)
    },
  ],
  'pumping for an hour': [
    'ground',
    (world) => {
      const [place, by] = [middle(world), -world.between(3, 25)]
      return pressures(
        world,
        place,
        (trace) => trace,
        (distance) => (h) => (Math.abs(h - place) < 0.6 ? by / (1 + distance / 60) : 0),
        whole(world, 1, 3),
      )
    },
  ],
  'first of a step': [
    'ground',
    (world) => {
      const [place, by] = [middle(world), -world.between(3, 25)]
      return pressures(
        world,
        place,
        (trace) => trace,
        (distance) => (h) => (h >= place ? by / (1 + distance / 60) : 0),
      )
    },
  ],
  'gust on an unvented transducer': [
    'weather',
    (world) => {
      const [place, by] = [middle(world), size(world, 1.5, 6)]
      const made = pressures(world, place, (trace) => at(trace, place, (value) => value + by))
      const gust = (driver: Driver): Driver =>
        driver.kind === 'air-pressure'
          ? { ...driver, ...at(driver, place, (value) => value + by), kind: driver.kind }
          : driver
      return { ...made, drivers: made.drivers.map(gust) }
    },
  ],
}

/** So many cases of every kind from each seed on; a case is the same whenever it is made. */
export const madeReadings = (firstSeed: number, ofEachKind: number): readonly MadeReading[] =>
  Object.entries(makers).flatMap(([kind, [truth, make]], place) =>
    Array.from({ length: ofEachKind }, (_, i) => {
      const seed = firstSeed + 1000 * place + i
      return { kind, seed, truth, reviewed: make(makeWorld(seed, 60)) }
    }),
  )
