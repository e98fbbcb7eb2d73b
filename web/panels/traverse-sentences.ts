import type { ChecksumSpread } from '#domain/reduction/face-checksum.ts'
import type { TraverseFault } from '#domain/reduction/traverse-faults.ts'
import { formatValue } from '../ui/format-value.ts'

/** What a fault is called where people decide on it. */
export const faultNames: Readonly<Record<TraverseFault['kind'], string>> = {
  'bias-shift': 'Bias that shifted between the two passes',
  rotation: 'Probe turned on its axis',
  depth: 'Depths read wrong',
}

/** The size of a fault with its standard error, as people say it. */
export function faultSize({ kind, size, standardError }: TraverseFault): string {
  if (kind === 'rotation') {
    const [angle, error] = [size, standardError].map((sine) => (Math.asin(clamp(sine)) * 180) / Math.PI)
    return `${formatValue(angle ?? null, 3)}° ± ${formatValue(error ?? null, 3)}°`
  }
  const what = kind === 'depth' ? (size < 0 ? 'too shallow by ' : 'too deep by ') : ''
  const shown = kind === 'depth' ? Math.abs(size) : size
  return `${what}${formatValue(shown, 2)} ± ${formatValue(standardError, 2)} mm${kind === 'bias-shift' ? ' at each interval' : ''}`
}

/** What the still intervals say of a fault: whole sentence. */
export function faultSentence(fault: TraverseFault): string {
  const { intervals, wholeMm, explained, size, standardError } = fault
  const times = standardError === 0 ? null : Math.abs(size / standardError)
  const strength =
    times === null
      ? 'without scatter'
      : times < 2
        ? `${formatValue(times, 1)} times its standard error: not told from scatter`
        : `${formatValue(times, 1)} times its standard error`
  return `Told from ${intervals} still intervals, ${strength}; it explains ${Math.round(100 * explained)} % of their squared changes and by itself makes ${formatValue(wholeMm, 1)} mm over the whole casing.`
}

/** Why a correction is entered, as the form proposes it. */
export const reasonForFault = (fault: TraverseFault, stillBelowMetres: number | null, on: string): string =>
  `${faultNames[fault.kind]}: ${faultSize(fault)}, from ${fault.intervals} still intervals${stillBelowMetres === null ? '' : ` below ${stillBelowMetres} m`} in the survey of ${on}`

export function checksumSentence(spread: ChecksumSpread | null): string {
  return spread === null
    ? 'Fewer than two intervals were read on both faces, so there is no checksum.'
    : `Checksum of the faces over ${spread.count} intervals: mean ${formatValue(spread.mean, 2)} mm, standard deviation ${formatValue(spread.standardDeviation, 2)} mm. The mean is twice the bias of the probe; scatter is a fault of the survey.`
}

const clamp = (sine: number) => Math.max(-1, Math.min(1, sine))
