import type { CheckedReading } from './checked-reading.ts'
import { checks } from './checks.ts'
import { beyond, type Limits, limitColumns } from './limits.ts'
import {
  failBit,
  type QartodFlag,
  qartodFlags,
  type ReadingCheck,
  readingChecks,
  suspectBit,
} from './reading-checks.ts'

/** Limits by check; a check without limits is not evaluated. */
export type CheckLimits = Readonly<Partial<Record<ReadingCheck, Limits>>>

/** What one check found. */
export interface Finding {
  readonly check: ReadingCheck
  readonly flag: QartodFlag
  /** The number that was held against the limits; null where there was none. */
  readonly measured: number | null
}

/** Every check of a reading; null: a reading without a value, of which all that can be said is that it is missing. */
export function findings(reading: CheckedReading | null, limits: CheckLimits): readonly Finding[] {
  return readingChecks.map((check) => {
    if (reading === null) return { check, flag: qartodFlags.missing, measured: null }
    const own = limits[check]
    const measured = own ? checks[check].measured(reading) : null
    if (!own || measured === null) return { check, flag: qartodFlags.notEvaluated, measured }
    const found = beyond(measured, own)
    return { check, flag: qartodFlags[found ?? 'pass'], measured }
  })
}

/** The bits that are published with a reading. */
export const bitsOf = (found: readonly Finding[]): number =>
  found.reduce(
    (bits, { check, flag }) =>
      bits |
      (flag === qartodFlags.fail ? failBit(check) : flag === qartodFlags.suspect ? suspectBit(check) : 0),
    0,
  )

/** `bitsOf` as SQL over the columns of `Check.measuredSql` and `limitColumns`, for the checks given; what is null marks nothing. */
export function bitsSql(which: readonly ReadingCheck[]): string {
  const parts = which.map((check) => {
    const { suspectBelow, suspectAbove, failBelow, failAbove } = limitColumns(readingChecks.indexOf(check))
    const measured = `(${checks[check].measuredSql})`
    return `(case when ${measured} < ${failBelow} or ${measured} > ${failAbove} then ${failBit(check)}
      when ${measured} < ${suspectBelow} or ${measured} > ${suspectAbove} then ${suspectBit(check)} else 0 end)`
  })
  return parts.length === 0 ? '0' : parts.join(' | ')
}
