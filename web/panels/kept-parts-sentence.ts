import type { Part } from '../state/kept-parts.ts'

const names: Readonly<Record<Part, string>> = {
  records: 'Records (levels, wiring, calibrations)',
  readings: 'Readings of curves and of a past clock',
  'field guide': 'What is known of the sensors for field work',
}

/** What is shown as this device kept it, and since when; `answering`: the server gives newer ones at last. */
export function keptPartsSentence(
  parts: readonly { readonly part: Part; readonly keptAtEpochMs: number }[],
  answering: boolean,
): string {
  const kept = parts.map(
    ({ part, keptAtEpochMs }) =>
      `${names[part]} kept on this device on ${dayAndTime.format(keptAtEpochMs)} (its clock)`,
  )
  const newer = answering ? 'newer ones are being fetched' : 'newer ones come when the server answers'
  return `${kept.join('. ')}; ${newer}. What changed since does not show.`
}

const dayAndTime = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
