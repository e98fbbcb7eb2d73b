import type { SeriesJoin } from '#domain/site/tables.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'
import { withUnit } from '../ui/format-value.ts'

/** A join as the record of one of its two series tells it. */
export function joinSentence(join: SeriesJoin, sensor: string, unit: string, zone: string): string {
  const from = `${formatInstant(join.at, zone)} ${formatOffset(join.at, zone)}`
  const quantity = (value: number) => withUnit(String(value).replace('-', '−'), unit)
  const which =
    sensor === join.series
      ? `From ${from} this series carries on from ${join.follows}. To stand on its level, ${quantity(join.offset)} is to be added to the values here`
      : `From ${from} ${join.series} carries on from this series. To stand on the level here, ${quantity(join.offset)} is to be added to its values`
  return `${which} (standard uncertainty of that offset ${quantity(join.standardUncertainty)}; ${join.author}: ${join.reason}). No value is changed by it; the history over time can draw the earlier series with it.`
}
