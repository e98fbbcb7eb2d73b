import type { Cause } from '#domain/review/cause.ts'
import type { Oddity } from '#domain/review/oddity.ts'
import type { DatedNote, ReviewCase, Trace } from '#domain/review/review-case.ts'
import { type Course, fromEpochMs, hourMs, makeWorld, type World } from './made-world.ts'

/** A case whose cause is known because it was made with it. */
export interface MadeCase {
  readonly kind: string
  readonly seed: number
  readonly truth: Cause
  readonly oddity: Oddity
  readonly reviewed: ReviewCase
}

type Maker = readonly [truth: Cause, oddity: Oddity, make: (world: World) => ReviewCase]

const note = (kind: DatedNote['kind'], atHours: number, text: string, distanceMetres: number): DatedNote => ({
  kind,
  atEpochMs: fromEpochMs + atHours * hourMs,
  text,
  distanceMetres,
})
const chance = (world: World, share: number) => world.random.uniform() < share
const whole = (world: World, low: number, high: number) => Math.floor(world.between(low, high + 0.999))
const sign = (world: World) => (chance(world, 0.5) ? 1 : -1)
/** Values from an hour on as `change` makes them. */
const changed = (trace: Trace, change: (value: number, hours: number, at: number) => number): Trace => ({
  ...trace,
  values: trace.values.map((value, at) =>
    change(value, ((trace.atEpochMs[at] as number) - fromEpochMs) / hourMs, at),
  ),
})

/** Pore pressure in a layer that the tide reaches, with the layer's own slow ways; the barometer is applied. */
const pressure =
  (world: World, level: number, change: Course = () => 0): Course =>
  (h) =>
    level + 1.2 * world.tideMetres(h - 2) + 0.8 * world.wander(h) + change(h)

/** Tilt of a wall that bends a little with warmth. */
const tilt =
  (world: World, change: Course = () => 0): Course =>
  (h) =>
    2e-4 * (world.airDegC(h - 2) - 14) + change(h)

function pressureCase(world: World, spoil: (trace: Trace) => Trace, count = whole(world, 0, 3)): ReviewCase {
  const read = (change?: Course) => ({
    measure: 'pore-pressure' as const,
    course: pressure(world, 80, change),
  })
  return world.caseOf(spoil(world.trace(read())), {
    same: world.beside(() => read(), count, world.between(3, 30)),
    drivers: world.drivers,
    logger: world.logger(),
    ofLogger: [world.trace({ measure: 'temperature', course: () => 11, point: 'X-2' })],
  })
}

/** Settlement marks, levelled every few days; `ground` by the distance from the subject. */
function levelled(
  world: World,
  ground: (distanceMetres: number) => Course,
  given: Partial<ReviewCase> & { spoil?: (trace: Trace) => Trace; nearest?: number; count?: number } = {},
): ReviewCase {
  const {
    spoil = (trace: Trace) => trace,
    nearest = world.between(3, 20),
    count = whole(world, 0, 3),
    ...rest
  } = given
  const everyHours = chance(world, 0.5) ? 24 : 72
  const read = (distanceMetres: number) => ({
    measure: 'settlement' as const,
    course: ground(distanceMetres),
    everyHours,
  })
  return world.caseOf(spoil(world.trace(read(0))), {
    same: world.beside(read, count, nearest),
    drivers: world.drivers,
    ...rest,
  })
}

const logistic = (h: number, middle: number, widthHours: number) =>
  1 / (1 + Math.exp(-(h - middle) / widthHours))

/** Every kind of case. Sizes, places, neighbours and notes differ from seed to seed; some cases cannot be told by anyone. */
export const makers: Readonly<Record<string, Maker>> = {
  drift: [
    'sensor',
    'value',
    (world) => {
      const [since, rate] = [world.between(0, 20) * 24, (sign(world) * world.between(0.04, 0.3)) / 24]
      return pressureCase(
        world,
        (trace) => changed(trace, (value, h) => value + rate * Math.max(0, h - since)),
        whole(world, 1, 3),
      )
    },
  ],
  'step of one mark': [
    'sensor',
    'value',
    (world) => {
      const [at, size] = [world.between(15, 45) * 24, world.between(3, 9) * sign(world)]
      return levelled(world, () => () => 0, {
        spoil: (trace) => changed(trace, (value, h) => (h < at ? value : value + size)),
        notes: chance(world, 0.7)
          ? [note('damage', at - world.between(2, 24), 'Barrier pushed onto the mark', 1)]
          : [],
      })
    },
  ],
  stuck: [
    'sensor',
    'value',
    (world) => {
      const from = world.between(10, 40) * 24
      const until = from + world.between(2, 15) * 24
      return pressureCase(world, (trace) => {
        const held = trace.values[Math.floor(from)] as number
        return changed(trace, (value, h) => (h >= from && h < until ? held : value))
      })
    },
  ],
  spikes: [
    'sensor',
    'value',
    (world) => {
      const at = Array.from({ length: whole(world, 1, 5) }, () => whole(world, 40, world.hours - 40))
      const size = world.between(6, 30) * sign(world)
      return pressureCase(world, (trace) =>
        changed(trace, (value, _, i) => (at.includes(i) ? value + size : value)),
      )
    },
  ],
  noise: [
    'sensor',
    'value',
    (world) => {
      const [from, scatter] = [world.between(20, 45) * 24, world.between(0.8, 4)]
      const until = from + world.between(11, 15) * 24
      return pressureCase(world, (trace) =>
        changed(trace, (value, h) =>
          h >= from && h < until ? value + scatter * world.random.gaussian() : value,
        ),
      )
    },
  ],
  clipping: [
    'sensor',
    'value',
    (world) => {
      const limit = 80 + world.between(0.3, 1.5)
      return pressureCase(world, (trace) => changed(trace, (value) => Math.min(value, limit)))
    },
  ],
  'temperature artefact': [
    'weather',
    'value',
    (world) => {
      const [perDegree, late] = [world.between(0.002, 0.006) * sign(world), whole(world, 0, 3)]
      return world.caseOf(
        world.trace({
          measure: 'tilt',
          course: tilt(world, (h) => perDegree * (world.airDegC(h - late) - 14)),
        }),
        {
          same: world.beside(
            () => ({ measure: 'tilt', course: tilt(world) }),
            whole(world, 0, 3),
            world.between(5, 30),
          ),
          drivers: world.drivers,
          logger: world.logger(),
        },
      )
    },
  ],
  'barometer not applied': [
    'weather',
    'value',
    (world) => {
      const air: Course = (h) => world.airKpa(h) - 101.3
      const made = pressureCase(world, (trace) => changed(trace, (value, h) => value + air(h)))
      return { ...made, airStandsInValues: chance(world, 0.5) ? true : null }
    },
  ],
  'clock offset': [
    'logger',
    'time',
    (world) => {
      const value = world.between(15, 90) * sign(world)
      const made = pressureCase(world, (trace) => trace)
      return {
        ...made,
        logger: world.logger({ clockSecondsPerDay: { value, low: value - 3, high: value + 3 } }),
      }
    },
  ],
  'swapped wiring': [
    'sensor',
    'value',
    (world) => {
      const at = world.between(15, 45) * 24
      const [one, two] = [80, 80 + sign(world) * world.between(8, 40)]
      const [own, other] = [one, two].map((level) => pressure(world, level)) as [Course, Course]
      const read = (before: Course, after: Course, point: string) =>
        world.trace({ measure: 'pore-pressure', course: (h) => (h < at ? before(h) : after(h)), point })
      return world.caseOf(read(own, other, 'X-1'), {
        ofLogger: [
          read(other, own, 'X-2'),
          world.trace({ measure: 'temperature', course: () => 11, point: 'X-3' }),
        ],
        same: world.beside(
          () => ({ measure: 'pore-pressure', course: own }),
          whole(world, 0, 2),
          world.between(5, 30),
        ),
        drivers: world.drivers,
        logger: world.logger(),
        notes: chance(world, 0.5) ? [note('visit', at - 3, 'Terminal block cleaned', 1)] : [],
      })
    },
  ],
  'local settlement': [
    'ground',
    'value',
    (world) => {
      const [size, reach] = [world.between(5, 25), world.between(3, 12)]
      const [middle, width] = [world.between(25, 45) * 24, world.between(1, 6) * 24]
      const at = (distance: number) => (h: number) =>
        size * Math.exp(-(distance ** 2) / (2 * reach ** 2)) * logistic(h, middle, width)
      const crack = world.beside(
        (distance) => ({ measure: 'opening', course: (h) => 0.06 * at(distance)(h) }),
        chance(world, 0.6) ? 1 : 0,
        world.between(2, 10),
      )
      return levelled(world, at, { other: crack })
    },
  ],
  drawdown: [
    'ground',
    'value',
    (world) => {
      const [since, size, days] = [world.between(15, 45) * 24, world.between(4, 40), world.between(0.5, 5)]
      const at = (distance: number) => (h: number) =>
        (-size * (1 - Math.exp(-Math.max(0, h - since) / (24 * days)))) / (1 + distance / 100)
      const read = (distance: number) => ({
        measure: 'pore-pressure' as const,
        course: pressure(world, 80, at(distance)),
      })
      return world.caseOf(world.trace(read(0)), {
        same: world.beside(read, whole(world, 0, 3), world.between(3, 40)),
        drivers: world.drivers,
        logger: world.logger(),
        ofLogger: [world.trace({ measure: 'temperature', course: () => 11, point: 'X-2' })],
        notes: chance(world, 0.7) ? [note('works', since - 6, 'Pumping began', 50)] : [],
      })
    },
  ],
  'tunnel passage': [
    'ground',
    'value',
    (world) => {
      const [size, middle, metresADay] = [
        world.between(4, 30),
        world.between(25, 45) * 24,
        world.between(5, 15),
      ]
      const at = (distance: number) => (h: number) =>
        size * logistic(h, middle + (24 * distance) / metresADay, (24 * 5) / metresADay)
      return levelled(world, at, {
        notes: chance(world, 0.6) ? [note('works', middle - 48, 'Tunnel machine comes near', 20)] : [],
      })
    },
  ],
  'radio loss': [
    'radio',
    'silence',
    (world) => {
      const share = world.between(0.05, 0.9)
      const made = pressureCase(world, (trace) => trace)
      const due = world.hours
      const lost = Math.round(share * due)
      const longest = world.between(0.05, 0.5) * lost * hourMs
      return {
        ...made,
        logger: world.logger({
          inTime: due - lost,
          later: chance(world, 0.5) ? Math.round(0.9 * lost) : 0,
          longestSilence: { fromEpochMs, untilEpochMs: fromEpochMs + longest },
          silentBeside: { silent: whole(world, 0, 2), of: 2 },
          clockSecondsPerDay: null,
        }),
      }
    },
  ],
  'logger out of power': [
    'logger',
    'silence',
    (world) => {
      const made = pressureCase(world, (trace) => trace)
      const lost = whole(world, 100, 1000)
      return {
        ...made,
        logger: world.logger({
          inTime: world.hours - lost,
          longestSilence: { fromEpochMs, untilEpochMs: fromEpochMs + lost * hourMs },
          battery: {
            volts: world.between(2.6, 3.05),
            leastVolts: 3,
            atEpochMs: fromEpochMs + world.hours * hourMs,
          },
          clockSecondsPerDay: null,
        }),
      }
    },
  ],
  'sudden movement': [
    'ground',
    'value',
    (world) => {
      const [at, size, reach] = [
        world.between(15, 50) * 24,
        sign(world) * world.between(0.03, 0.2),
        world.between(3, 10),
      ]
      const lasting = world.between(1, 30)
      const share = (distance: number) => Math.exp(-(distance ** 2) / (2 * reach ** 2))
      const read = (distance: number) => ({
        measure: 'tilt' as const,
        course: tilt(world, (h) => size * share(distance) * Math.min(1, Math.max(0, (h - at) / lasting))),
      })
      return world.caseOf(world.trace(read(0)), {
        same: world.beside(read, whole(world, 0, 3), world.between(3, 15)),
        drivers: world.drivers,
        logger: world.logger(),
        ofLogger: [world.trace({ measure: 'temperature', course: () => 11, point: 'X-2' })],
      })
    },
  ],
  'movement under a daily wave': [
    'ground',
    'value',
    (world) => {
      const [since, size, days] = [
        world.between(10, 40) * 24,
        sign(world) * world.between(0.08, 0.4),
        world.between(5, 20),
      ]
      const perDegree = world.between(0.001, 0.004)
      const lean = (distance: number) => (h: number) =>
        perDegree * (world.airDegC(h - 1) - 14) +
        (size / (1 + distance / 10)) * Math.min(1, Math.max(0, (h - since) / (24 * days)))
      const read = (distance: number) => ({ measure: 'tilt' as const, course: lean(distance) })
      return world.caseOf(world.trace(read(0)), {
        same: world.beside(read, whole(world, 0, 3), world.between(3, 30)),
        drivers: world.drivers,
        logger: world.logger(),
      })
    },
  ],
}

/** So many cases of every kind from each seed on; a case is the same whenever it is made. */
export const madeCases = (firstSeed: number, ofEachKind: number): readonly MadeCase[] =>
  Object.entries(makers).flatMap(([kind, [truth, oddity, make]], place) =>
    Array.from({ length: ofEachKind }, (_, i) => {
      const seed = firstSeed + 1000 * place + i
      return { kind, seed, truth, oddity, reviewed: make(makeWorld(seed, 60)) }
    }),
  )
