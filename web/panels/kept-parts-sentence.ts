import { groupBy } from '#domain/group-by.ts'
import type { Part } from '../state/kept-parts.ts'
import { dayAndTime } from '../ui/day-and-time.ts'

const names: Readonly<Record<Part, string>> = {
  records: 'records (levels, wiring, calibrations)',
  readings: 'readings of curves and of a past clock',
  'field guide': 'what is known of the sensors for field work',
}

/** What is shown as this device kept it, and since when; `answering`: the server gives newer ones at last. */
export function keptPartsSentence(
  parts: readonly { readonly part: Part; readonly keptAtEpochMs: number }[],
  answering: boolean,
): string {
  const byTime = groupBy(parts, ({ keptAtEpochMs }) => dayAndTime.format(keptAtEpochMs))
  const kept = [...byTime].map(
    ([time, together]) =>
      `${together.map(({ part }) => names[part]).join(', ')}: as kept on this device on ${time}`,
  )
  const newer = answering ? 'newer ones are being fetched' : 'newer ones come when the server answers'
  const said = `${kept.join('; ')}; ${newer}. What changed since does not show.`
  return said.charAt(0).toUpperCase() + said.slice(1)
}
