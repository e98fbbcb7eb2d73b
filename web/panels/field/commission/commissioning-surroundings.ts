import type { ChannelToProve } from '#domain/field/commissioning-steps.ts'
import type { StepSurroundings } from '#domain/field/judge-step.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import { groupBy } from '#domain/group-by.ts'
import { judgeCoverageTest } from '#domain/radio/acceptance.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { fieldGuide } from '../../../state/field-guide.ts'
import { knownEntries } from '../../../state/field-work.ts'
import { siteDocument, siteLookup, stateDocument } from '../../../state/site-document.ts'

/** Channels of a logger by what is wired to them now. */
export const channelsOf = (logger: string): readonly ChannelToProve[] =>
  (fieldGuide()?.sensors ?? []).flatMap(({ id, wiring, rawUnit, unit }) =>
    wiring?.logger === logger ? [{ channel: wiring.channel, sensor: id, rawUnit, unit }] : [],
  )

/** What the steps of a logger's commissioning are held against, as far as this device knows it. */
export function surroundingsOf(
  logger: string,
  startedAtEpochMs: number,
  channel: ChannelToProve | null,
): StepSurroundings {
  const sensor = fieldGuide()?.sensors.find(({ id }) => id === channel?.sensor)
  const steps = sensor?.calibration?.steps
  return {
    logger,
    startedAtEpochMs,
    ...(channel && {
      unit: channel.unit,
      reduce: (raw: number) =>
        steps ? reduceValue(raw, steps, { temperatureDegC: null, barometerKpa: null }).value : null,
    }),
    coverageTests: coverageResults(),
    receivedAtEpochMs: new Map(channelsOf(logger).map((one) => [one.channel, lastReceived(one.sensor)])),
  }
}

function lastReceived(sensor: string): number | null {
  const series = siteLookup().seriesById.get(sensor)?.series
  const state = stateDocument()?.states.find((one) => one.series === series)
  return state?.receivedAtEpochMs ?? null
}

/** Every coverage test known here, the site's and this device's, with the verdict of the trade's rule; null: no result yet. */
function coverageResults(): ReadonlyMap<string, boolean | null> {
  const results = new Map<string, boolean | null>()
  const accepted = (counts: Parameters<typeof judgeCoverageTest>[0]) =>
    judgeCoverageTest(counts).verdict === 'accepted'
  for (const [test, rows] of groupBy(siteDocument()?.coverageTests ?? [], ({ test: of }) => of))
    results.set(test, accepted(rows))
  for (const { entries } of standingEntries(knownEntries().map(({ entry }) => entry)))
    for (const { body } of entries) {
      if (body.kind !== 'coverage-test' || results.has(body.test)) continue
      const counts = body.factors.flatMap(({ spreadingFactor, sent, received }) =>
        received === null ? [] : [{ spreadingFactor, sent, received }],
      )
      results.set(body.test, counts.length < body.factors.length ? null : accepted(counts))
    }
  return results
}
