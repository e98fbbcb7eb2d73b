import type { DutyStanding, PersonOn } from '#contract/duties-document.ts'
import { formatAge, formatInstant, formatShortInstant } from '../../ui/format-instant.ts'

/** What the roster leaves open, in one sentence. */
export function coverageSentence({ holes }: DutyStanding, untilEpochMs: number, timeZone: string): string {
  const until = formatInstant(untilEpochMs, timeZone)
  if (holes.length === 0) return `Somebody can be told first at every instant until ${until}.`
  const times = holes.length === 1 ? 'Once' : `${holes.length} times`
  return `${times} until ${until} nobody would be told first:`
}

const weekMs = 7 * 86_400_000
const wayNames = { email: 'mail', account: 'devices of an account', webhook: 'webhook' } as const

export function personSentence(
  { ways, untilEpochMs }: PersonOn,
  atEpochMs: number,
  timeZone: string,
): string {
  const by =
    ways.length === 0 ? 'cannot be reached in any way' : `by ${ways.map((way) => wayNames[way]).join(', ')}`
  const left = untilEpochMs - atEpochMs
  return left > weekMs
    ? `${by}; on all week`
    : `${by}; on until ${formatShortInstant(untilEpochMs, timeZone)}, for ${formatAge(left)}`
}

/** First letters of a name, for where it has no room. */
export const initialsOf = (name: string): string =>
  name
    .split(/\s+/)
    .map((word) => word[0]?.toUpperCase() ?? '')
    .join('')
    .slice(0, 3)
