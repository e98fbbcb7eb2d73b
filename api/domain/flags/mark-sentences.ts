import { quantityText } from '../reduction/number-text.ts'
import { checks } from './checks.ts'
import type { Finding } from './flag-reading.ts'
import { clockToleranceSeconds, type SeriesChecks } from './limits-in-force.ts'
import { limitWords } from './mark-words.ts'
import { markNote, qartodFlags } from './reading-checks.ts'

/**
 * One sentence for each check that marks a reading: which, what was seen, which limit it passed, since when that is in
 * force, from whom and why. `unit` is that of the series.
 */
export function markSentences(found: readonly Finding[], own: SeriesChecks, unit: string): readonly string[] {
  return found.flatMap(({ check, flag, measured }) => {
    const fails = flag === qartodFlags.fail
    if (measured === null || (!fails && flag !== qartodFlags.suspect)) return []
    const { says, unit: unitOfCheck } = checks[check]
    const limit = limitWords(check, own.limits[check], fails, unit)
    const beside = check === 'duplicate' ? says.replace(' is', `, ${own.against}, is`) : says
    const seen = `${beside} ${quantityText(Number(measured.toPrecision(5)), unitOfCheck ?? unit)}`
    return [
      `${own.series}, ${markNote({ check, fails })}. ${seen[0]?.toUpperCase()}${seen.slice(1)}, ${limit}. ${sourceOf(own, check)}`,
    ]
  })
}

function sourceOf({ records }: SeriesChecks, check: Finding['check']): string {
  const record = records[check]
  if (!record)
    return check === 'clock'
      ? `A reading is not received before it is taken; ${clockToleranceSeconds} s are allowed for clocks that differ.`
      : "The limit is the sensor's stated range."
  const since =
    (record.validFrom ?? null) === null
      ? 'in force from the first reading'
      : `in force since ${new Date(record.validFrom ?? 0).toISOString().slice(0, 16).replace('T', ' ')} UTC`
  return `Limit ${record.id}, ${since}, set by ${record.author}: ${record.reason}.`
}
