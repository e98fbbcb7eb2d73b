import type { Findings, StepSurroundings } from './step-surroundings.ts'

/**
 * Whether the coverage test that a step names bears it out: made with this logger, disputed by nobody, taken by the
 * server or on its way there, accepted by the trade's rule and settled, its interval wholly at one half or above.
 * A test older than the last change of the works is told as that.
 */
export function judgeCoverageStep(
  test: string,
  {
    logger,
    coverageTests,
    lastWorksChange,
  }: Pick<StepSurroundings, 'logger' | 'coverageTests' | 'lastWorksChange'>,
): Findings {
  const known = coverageTests.get(test)
  const against = (...sentences: readonly string[]): Findings => ({ against: sentences, remarks: [] })
  if (known === undefined) return against(`No coverage test ${test} is known on this device.`)
  const { accepted, certainOfHalf, cautions, atEpochMs } = known
  if (known.disputed)
    return against(`Coverage test ${test} is written twice: say in the Outbox which one holds.`)
  if (known.refused)
    return against(`The server did not take coverage test ${test}: look into the Outbox and write it anew.`)
  if (known.logger === null)
    return against(
      `Coverage test ${test} names no logger, and so may be of another place. Make one that names ${logger}.`,
    )
  if (known.logger !== logger)
    return against(`Coverage test ${test} was made with ${known.logger}, not with ${logger}.`)
  if (accepted === null) return against(`The result of coverage test ${test} is not known yet.`)
  if (!accepted) return against(`Coverage test ${test} was not accepted: move the antenna or the gateway.`)
  const age =
    lastWorksChange !== null && atEpochMs < lastWorksChange.atEpochMs
      ? [
          `Coverage test ${test} is older than the last change of the works (${lastWorksChange.name}): what stands in the way may have changed. Repeat it.`,
        ]
      : []
  return {
    against: certainOfHalf
      ? []
      : [
          `Coverage test ${test} was accepted but is not settled: its link may deliver less than half. Send more packets, or skip this step and say why.`,
        ],
    remarks: [...cautions, ...age],
  }
}
