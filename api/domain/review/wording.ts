import { wallReading } from '../roster/wall-clock.ts'
import { unitSymbol } from '../units.ts'
import type { HistoryPicture } from './evidence.ts'
import type { Neighbour, ReviewCase, Trace } from './review-case.ts'

/** A change with its sign and unit, to three digits that count. */
export const changeText = (change: number, unit: string): string =>
  `${change < 0 ? '' : '+'}${amountText(change, unit)}`

/** A level or a size with its unit, to three digits that count; a sign only below 0. */
export function amountText(amount: number, unit: string): string {
  const size = Math.abs(amount)
  const digits = size === 0 ? 0 : Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(size))))
  return `${amount < 0 ? '−' : ''}${size.toFixed(digits)}${unitText(unit)}`
}

/** A unit after its number as people read it: `mm`, `°C`, of a ratio `kN per °C`; degrees of arc stand close to the number. */
function unitText(unit: string): string {
  const symbols = unit.split(' per ').map(unitSymbol).join(' per ')
  return symbols === '' || symbols.startsWith('° ') || symbols === '°' ? symbols : ` ${symbols}`
}

/** Where another series is read. */
export const placeText = ({ point, distanceMetres }: Neighbour): string =>
  distanceMetres < 0.5 ? point : `${point}, ${distanceMetres.toFixed(distanceMetres < 10 ? 1 : 0)} m away,`

/** The subject beside other series, over the stretch that is reviewed. */
export const pictureOf = (
  { subject, fromEpochMs, untilEpochMs }: ReviewCase,
  ...others: readonly Pick<Trace, 'series'>[]
): HistoryPicture => ({
  kind: 'history',
  series: [subject.series, ...others.map(({ series }) => series)],
  fromEpochMs,
  untilEpochMs,
})

/** The day of an instant by the clocks of the site, such as 2027-08-12. */
export const dayText = ({ timeZone }: Pick<ReviewCase, 'timeZone'>, atEpochMs: number): string =>
  new Date(wallReading(atEpochMs, timeZone).day * 86_400_000).toISOString().slice(0, 10)

/** A weight with its sign, in decibans to one digit. */
export function decibansText(decibans: number): string {
  const size = Math.abs(decibans).toFixed(1).replace(/\.0$/, '')
  return size === '0' ? size : `${decibans < 0 ? '−' : '+'}${size}`
}
