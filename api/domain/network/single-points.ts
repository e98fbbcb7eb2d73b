import { groupBy } from '../group-by.ts'
import { byWeight, type Finding, namesOf } from './finding.ts'
import { type Wire, wiresAt } from './wires-in-force.ts'

/** How many readings of a logger came by each way in the days looked at. */
export interface Route {
  readonly logger: string
  /** Who sent the files: a gateway, a modem, a crew. */
  readonly sender: string
  readonly readings: number
}

/**
 * What takes a whole question with it when it fails: a companion that values on other loggers need, a kind of measure
 * that one logger alone reads, a way that is the only one for several loggers. What a logger reads of itself is no question.
 */
export function singlePoints(
  wires: readonly Wire[],
  routes: readonly Route[],
  atEpochMs: number,
  /** Crews and benches: their rounds are no single point. */
  readByPeople: ReadonlySet<string>,
): readonly Finding[] {
  const now = wiresAt(wires, atEpochMs).filter((wire) => !wire.ofLogger && !readByPeople.has(wire.logger))
  return [
    ...byWeight(companions(now)),
    ...byWeight(aloneWithMeasure(now)),
    ...byWeight(onlyWays(now, routes)),
  ]
}

function companions(now: readonly Wire[]): readonly Finding[] {
  const needs = now.flatMap((wire) =>
    [wire.sensor.barometerSensor, wire.sensor.temperatureSensor].flatMap((companion) =>
      companion === null ? [] : [{ companion, wire }],
    ),
  )
  return [...groupBy(needs, ({ companion }) => companion)].flatMap(([companion, users]) => {
    const on = now.find((wire) => wire.sensor.id === companion)
    const elsewhere = users.filter(({ wire }) => wire.logger !== on?.logger)
    if (!on || elsewhere.length === 0) return []
    const loggers = new Set(elsewhere.map(({ wire }) => wire.logger))
    const standIn = now.find((wire) => wire.sensor.measure === on.sensor.measure && wire.logger !== on.logger)
    return [
      {
        subject: on.logger,
        says: `${companion} on ${on.logger} is needed by ${elsewhere.length} series on ${loggers.size} other ${loggers.size === 1 ? 'logger' : 'loggers'}; without it they have no value.`,
        toDo: standIn
          ? `${standIn.sensor.id} on ${standIn.logger} reads the same: name it in the sensors table when it must stand in.`
          : 'Keep a second one on another logger, and name it in the sensors table when it must stand in.',
        weight: elsewhere.length,
      },
    ]
  })
}

function aloneWithMeasure(now: readonly Wire[]): readonly Finding[] {
  return [...groupBy(now, (wire) => wire.logger)].flatMap(([logger, own]) => {
    const alone = [...groupBy(own, (wire) => wire.sensor.measure)].flatMap(([measure, ofMeasure]) => {
      const all = now.filter((wire) => wire.sensor.measure === measure)
      const needed = ofMeasure.some((wire) => wire.critical) || ofMeasure.length >= 2
      return needed && all.length === ofMeasure.length ? [{ measure, sensors: ofMeasure }] : []
    })
    if (alone.length === 0) return []
    const sensors = alone.flatMap((one) => one.sensors)
    const critical = sensors.filter((wire) => wire.critical).length
    return [
      {
        subject: logger,
        says: `${logger} alone reads ${namesOf(alone.map(({ measure }) => measure.replaceAll('-', ' ')))}: ${namesOf([...new Set(sensors.map((wire) => wire.instrument))])}${critical > 0 ? `, ${critical} of these channels critical` : ''}.`,
        toDo: 'Share the sensors between two loggers, or agree how they are read by hand while it is silent.',
        weight: sensors.length + 1000 * critical,
      },
    ]
  })
}

function onlyWays(now: readonly Wire[], routes: readonly Route[]): readonly Finding[] {
  const waysOf = groupBy(routes, (route) => route.logger)
  const alone = [...waysOf].flatMap(([logger, ways]) =>
    ways.length === 1 && now.some((wire) => wire.logger === logger)
      ? [{ logger, sender: (ways[0] as Route).sender }]
      : [],
  )
  return [...groupBy(alone, ({ sender }) => sender)].flatMap(([sender, loggers]) => {
    if (loggers.length < 2) return []
    const names = loggers.map(({ logger }) => logger)
    const hang = now.filter((wire) => names.includes(wire.logger))
    const critical = hang.filter((wire) => wire.critical).length
    return [
      {
        subject: null,
        says: `${names.length} loggers (${namesOf(names)}) with ${hang.length} channels${critical > 0 ? `, ${critical} of them critical,` : ''} come by “${sender}” and by no other way.`,
        toDo: 'Have a second way for the critical ones: another gateway in reach, a modem, or a memory file agreed beforehand.',
        weight: hang.length + 1000 * critical,
      },
    ]
  })
}
