import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import { correctionNames } from '#domain/corrections/correction.ts'
import type { CorrectionEffect } from '#domain/corrections/correction-proposal.ts'
import { subjectOf } from '#domain/corrections/overlapping-corrections.ts'
import type { Kept, Proposal } from '#domain/proposals/proposal.ts'
import { numberText } from '#domain/reduction/number-text.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'

/** What a correction is of, and from when: `PZ-05C/pore-pressure, zero or offset, from Thu 1 Jul 2027 00:00 on`. */
export function correctionTitle(correction: ProposedCorrection, zone: string): string {
  const { name, fromEpochMs, untilEpochMs } = correction
  const from = formatInstant(fromEpochMs, zone)
  return `${subjectOf(correction)}, ${correctionNames[name].toLowerCase()}, from ${from}${untilEpochMs === null ? ' on' : ` until ${formatInstant(untilEpochMs, zone)}`}`
}

/** What corrections do to one series, whole sentences. */
export function effectSentences(
  effect: CorrectionEffect,
  levelName: (level: number) => string,
  zone: string,
): readonly string[] {
  const { series, unit, decimals, readings, changed, lost, gained, meanChange, greatestChange, moved } =
    effect
  const value = (number: number) => withUnit(formatValue(number, decimals), unit)
  /** A mean that rounds to nothing has no sign. */
  const signed = (number: number) => {
    const size = formatValue(Math.abs(number), decimals + 1)
    return withUnit(`${Number(size) === 0 ? '' : number < 0 ? '−' : '+'}${size}`, unit)
  }
  if (readings === 0)
    return [`The store has no readings of ${series} in that time: nothing shows what the correction does.`]
  return [
    `${changed} of ${readings} readings of ${series} in that time get another value${meanChange === null ? '' : `, on average by ${signed(meanChange)}`}.`,
    ...(moved
      ? [
          `${moved.readings} of these ${readings} readings stand at another instant, by up to ${numberText(Math.abs(moved.mostSeconds))} s ${moved.mostSeconds < 0 ? 'earlier' : 'later'}.`,
          ...(moved.newlyLate > 0
            ? [
                `${moved.newlyLate} of them were received in time and would count as received late. Where a clock was set back, stamps come twice: those sent after that may be among them, and would be put wrong.`,
              ]
            : []),
        ]
      : []),
    ...(greatestChange && changed > 0
      ? [
          `The greatest change is at ${formatInstant(greatestChange.atEpochMs, zone)}: from ${value(greatestChange.before)} to ${value(greatestChange.after)}.`,
        ]
      : []),
    ...(lost > 0 ? [`${lost} readings lose their value.`] : []),
    ...(gained > 0 ? [`${gained} readings that have no value get one.`] : []),
    ...effect.levels.map(
      ({ id, level, direction, value: at, reachedBefore, reachedAfter }) =>
        `${levelName(level)} (${id}, ${direction} ${value(at)}): ${counted(reachedBefore)} at or past it as recorded, ${counted(reachedAfter)} as corrected.`,
    ),
  ]
}

/** What became of a proposal, in a sentence. */
export function decisionSentence({ decision }: Kept<Proposal>, zone: string): string {
  if (!decision) return 'It waits for a second person.'
  const { kind, by, reason, atEpochMs } = decision
  const what = { approved: 'Approved', rejected: 'Turned down', withdrawn: 'Withdrawn' }[kind]
  return `${what} by ${by}, ${formatInstant(atEpochMs, zone)}: ${reason}`
}

const counted = (count: number): string =>
  count === 0 ? 'no reading' : `${count} reading${count === 1 ? '' : 's'}`
