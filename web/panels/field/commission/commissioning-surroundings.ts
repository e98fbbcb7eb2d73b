import type { ChannelToProve } from '#domain/field/commissioning-steps.ts'
import type {
  ChannelReceipt,
  ChannelSurroundings,
  StepSurroundings,
} from '#domain/field/step-surroundings.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { knownCoverageTests } from '../../../derived/known-coverage-tests.ts'
import { memoryTakenAtEpochMs } from '../../../derived/memory-taken.ts'
import { fieldGuide } from '../../../state/field-guide.ts'
import { knownEntries } from '../../../state/field-work.ts'
import { siteDocument, siteLookup, stateDocument } from '../../../state/site-document.ts'
import { siteNowEpochMs } from '../../../state/site-now.ts'

const wiredTo = (logger: string) =>
  (fieldGuide()?.sensors ?? []).filter(({ wiring }) => wiring?.logger === logger)

/** Channels of a logger by what is wired to them now. */
export const channelsOf = (logger: string): readonly ChannelToProve[] =>
  wiredTo(logger).flatMap(({ id, wiring, rawUnit, unit }) =>
    wiring ? [{ channel: wiring.channel, sensor: id, rawUnit, unit }] : [],
  )

/** What the steps of a logger's commissioning are held against, as far as this device knows it. */
export function surroundingsOf(
  logger: string,
  startedAtEpochMs: number,
  channel: ChannelToProve | null,
): StepSurroundings {
  const intervals = wiredTo(logger).map(({ intervalMinutes }) => intervalMinutes)
  const proved = channel && channelSurroundings(channel.sensor)
  return {
    logger,
    startedAtEpochMs,
    ...(proved && { channel: proved }),
    shortestIntervalMinutes: intervals.length === 0 ? null : Math.min(...intervals),
    coverageTests: knownCoverageTests(siteDocument()?.coverageTests ?? [], knownEntries()),
    lastWorksChange: lastWorksChange(),
    receipts: new Map(channelsOf(logger).map((one) => [one.channel, lastReceipt(one.sensor)])),
    memoryTakenAtEpochMs: memoryTakenAtEpochMs(
      logger,
      knownEntries(),
      (siteDocument()?.facts.presentEpochMs ?? null) !== null,
    ),
  }
}

function channelSurroundings(sensor: string): ChannelSurroundings | null {
  const guided = fieldGuide()?.sensors.find(({ id }) => id === sensor)
  if (guided === undefined) return null
  const { unit, decimals, calibration } = guided
  return {
    unit,
    decimals,
    standardUncertainty: calibration?.standardUncertainty ?? null,
    reduce: (raw) =>
      calibration
        ? reduceValue(raw, calibration.steps, { temperatureDegC: null, barometerKpa: null }).value
        : null,
  }
}

function lastReceipt(sensor: string): ChannelReceipt | null {
  const series = siteLookup().seriesById.get(sensor)?.series
  const state = stateDocument()?.states.find((one) => one.series === series)
  return state && state.atEpochMs !== null && state.receivedAtEpochMs !== null
    ? { atEpochMs: state.atEpochMs, receivedAtEpochMs: state.receivedAtEpochMs }
    : null
}

function lastWorksChange(): StepSurroundings['lastWorksChange'] {
  const nowEpochMs = siteNowEpochMs()
  return (
    (siteDocument()?.stages ?? [])
      .flatMap(({ name, startsAt, endsAt }) => [
        { name, atEpochMs: startsAt },
        ...(endsAt === null ? [] : [{ name, atEpochMs: endsAt }]),
      ])
      .filter(({ atEpochMs }) => atEpochMs <= nowEpochMs)
      .toSorted((one, other) => other.atEpochMs - one.atEpochMs)[0] ?? null
  )
}
