import type { EvidencePicture } from './evidence.ts'
import type { Neighbour, ReviewCase, Trace } from './review-case.ts'

/** A change with its sign and unit, to three digits that count. */
export function changeText(change: number, unit: string): string {
  const size = Math.abs(change)
  const digits = size === 0 ? 1 : Math.max(0, Math.min(4, 2 - Math.floor(Math.log10(size))))
  const text = size.toFixed(digits)
  return `${change < 0 ? '−' : '+'}${text}${unit === '' ? '' : ` ${unit}`}`
}

/** Where another series is read. */
export const placeText = ({ point, distanceMetres }: Neighbour): string =>
  distanceMetres < 0.5 ? point : `${point}, ${distanceMetres.toFixed(distanceMetres < 10 ? 1 : 0)} m away,`

/** The subject beside other series, over the stretch that is reviewed. */
export const pictureOf = (
  { subject, fromEpochMs, untilEpochMs }: ReviewCase,
  ...others: readonly Pick<Trace, 'series'>[]
): EvidencePicture => ({
  series: [subject.series, ...others.map(({ series }) => series)],
  fromEpochMs,
  untilEpochMs,
})
