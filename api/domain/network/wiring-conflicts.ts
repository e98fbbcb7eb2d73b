import { groupBy } from '../group-by.ts'
import type { Logger } from '../site/tables.ts'
import { byWeight, type Finding, namesOf } from './finding.ts'
import { type Wire, wiresAt } from './wires-in-force.ts'

/** A channel that readings came on lately. */
export interface HeardChannel {
  readonly logger: string
  readonly channel: string
  readonly lastStampEpochMs: number
  readonly readings: number
}

/**
 * Where the wiring as written and the readings as they come contradict each other at an instant: readings on channels
 * that nothing is wired to, wired channels silent while their logger answers, more channels than a logger has. Overlaps are
 * refused when a site is loaded.
 */
export function wiringConflicts(
  wires: readonly Wire[],
  loggers: readonly Logger[],
  heard: readonly HeardChannel[],
  atEpochMs: number,
): readonly Finding[] {
  const now = wiresAt(wires, atEpochMs)
  const key = (one: { readonly logger: string; readonly channel: string }) => `${one.logger}\n${one.channel}`
  const found: Finding[] = []
  for (const [logger, channels] of groupBy(
    heard.filter(
      (one) => !wires.some((wire) => key(wire) === key(one) && covers(wire, one.lastStampEpochMs)),
    ),
    (one) => one.logger,
  ))
    found.push({
      subject: logger,
      says: `${logger} sends ${counted(channels.length, 'channel')} that the wiring does not name at the time of the readings: ${namesOf(channels.map((one) => one.channel))}.`,
      toDo: 'Look at the terminals, then enter what is wired there; until then the readings are kept and belong to nothing.',
      weight: channels.length,
    })
  const lastOf = new Map(heard.map((one) => [key(one), one.lastStampEpochMs]))
  const loggerHeard = new Map<string, number>()
  for (const { logger, lastStampEpochMs } of heard)
    loggerHeard.set(logger, Math.max(lastStampEpochMs, loggerHeard.get(logger) ?? lastStampEpochMs))
  const silent = now.filter((wire) => {
    const late = atEpochMs - wire.sensor.lateAfterMinutes * 60_000
    return (
      wire.fromEpochMs < late &&
      (lastOf.get(key(wire)) ?? Number.NEGATIVE_INFINITY) < late &&
      (loggerHeard.get(wire.logger) ?? Number.NEGATIVE_INFINITY) >= late
    )
  })
  for (const [logger, channels] of groupBy(silent, (wire) => wire.logger))
    found.push({
      subject: logger,
      says: `${logger} answers, but ${namesOf(channels.map((wire) => `${wire.channel} (${wire.sensor.id})`))} ${channels.length === 1 ? 'is' : 'are'} silent.`,
      toDo: 'Check the cable and the terminal, or end the wiring if the sensor is out of use.',
      weight: channels.length + (channels.some((wire) => wire.critical) ? 1000 : 0),
    })
  for (const logger of loggers) {
    const taken = new Set(now.filter((wire) => wire.logger === logger.id && !wire.ofLogger).map(key)).size
    if (logger.channels !== null && taken > logger.channels)
      found.push({
        subject: logger.id,
        says: `${logger.id} has ${logger.channels} channels and ${taken} are wired.`,
        toDo: 'One of the two is written down wrongly: compare the wiring map at the logger.',
        weight: taken,
      })
  }
  return byWeight(found)
}

const covers = (wire: Wire, atEpochMs: number) =>
  wire.fromEpochMs <= atEpochMs && atEpochMs < wire.untilEpochMs

const counted = (count: number, noun: string) => `${count} ${noun}${count === 1 ? '' : 's'}`
