import { type CoverageVerdict, judgeCoverageTest } from './acceptance.ts'
import type { LinkSpot } from './link-spots.ts'
import { crossingsOf, type Obstruction, standsAt } from './obstruction.ts'
import type { NamedAntenna, RadioSite } from './radio-site.ts'

/** What the last test of a logger is worth at an instant. */
export interface LinkProof {
  readonly state: 'proven' | 'not-settled' | 'to-be-proved-again' | 'not-accepted' | 'never-tested'
  readonly test: string | null
  readonly atEpochMs: number | null
  readonly verdict: CoverageVerdict | null
  /** Whole sentences: what changed since, and why it is to be proved again. */
  readonly reasons: readonly string[]
}

/**
 * A link proven before the works changed is not proven now: it is to be proved again where a stage of the works began since
 * its last test, or something that stands across its path was built or taken away. A test that was accepted proves nothing
 * where the 95 % interval of its best factor reaches below one half: it is not settled.
 */
export function proofOfLink(
  logger: NamedAntenna,
  gateway: NamedAntenna | undefined,
  spots: readonly LinkSpot[],
  { stages, obstructions }: Pick<RadioSite, 'stages' | 'obstructions'>,
  atEpochMs: number,
): LinkProof {
  const last = spots.findLast((spot) => spot.logger === logger.id)
  if (!last)
    return {
      state: 'never-tested',
      test: null,
      atEpochMs: null,
      verdict: null,
      reasons: ['No coverage test was made here.'],
    }
  const verdict = judgeCoverageTest(last.counts)
  const begun = stages
    .filter(({ startsAt }) => startsAt > last.atEpochMs && startsAt <= atEpochMs)
    .map(({ name }) => name)
  const across = gateway
    ? obstructions.filter(
        (one) =>
          standsAt(one, last.atEpochMs) !== standsAt(one, atEpochMs) && liesAcross(one, logger, gateway),
      )
    : []
  const reasons = [
    ...(begun.length > 0 ? [`Since then began: ${begun.join('; ')}.`] : []),
    ...across.map((one) =>
      standsAt(one, atEpochMs)
        ? `${one.name} was built across its path since.`
        : `${one.name}, which stood across its path, was taken away since.`,
    ),
  ]
  const tested =
    verdict.verdict !== 'accepted' ? 'not-accepted' : verdict.certainOfHalf ? null : 'not-settled'
  const state = tested ?? (reasons.length > 0 ? 'to-be-proved-again' : 'proven')
  return { state, test: last.test, atEpochMs: last.atEpochMs, verdict, reasons }
}

const liesAcross = ({ outline }: Obstruction, from: NamedAntenna, to: NamedAntenna) =>
  crossingsOf([from.eastingMetres, from.northingMetres], [to.eastingMetres, to.northingMetres], outline)
    .length > 0
