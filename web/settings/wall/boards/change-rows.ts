import {
  type Changed,
  type ChangesOfMeasure,
  isBeyondInterval,
  type Revised,
} from '../../../derived/meeting/changes-between.ts'
import { formatShortInstant } from '../../../ui/format-instant.ts'
import { formatValue, readableDecimals, withUnit } from '../../../ui/format-value.ts'
import { measureNames } from '../../../ui/kind-names.ts'
import type { BoardRow } from './RowPages.tsx'

/** So many of a measure: the largest; the rest is counted, and stands in the register. */
const mostOfMeasure = 3

/** Largest changes of each measure with their intervals, and how many cannot be told; then what was revised, apart. */
export function changeRows(
  changes: readonly ChangesOfMeasure[],
  revised: readonly Revised[] | null,
  timeZone: string,
): readonly BoardRow[] {
  return [
    ...changes.flatMap(({ measure, unit, changed, untold }): readonly BoardRow[] => [
      {
        heading: `${measureNames[measure]}${countWords(changed.length, untold.length)}`,
        cells: [],
      },
      ...largest(changed).map((one) => ({
        cells: [one.series.point, amount(one, unit), interval(one, unit)],
        presses: isBeyondInterval(one),
      })),
    ]),
    {
      heading: 'Revised since they were told at the meeting before',
      cells: [],
    },
    ...(revised === null
      ? [{ cells: ['not known', '', 'The data of the meeting before were not frozen.'] }]
      : revisedRows(revised, timeZone)),
  ]
}

/** Values that are others now one by one; where later readings came in, their number says enough. */
function revisedRows(revised: readonly Revised[], timeZone: string): readonly BoardRow[] {
  const filled = revised.filter(({ told, now }) => now !== null && now.atEpochMs > told.atEpochMs)
  const others = revised.filter((one) => !filled.includes(one))
  const rows = others.map((one) => revisedRow(one, timeZone))
  if (rows.length === 0)
    rows.push({
      cells: ['none', '', 'No value told then is another now, as far as it is still the last one.'],
    })
  if (filled.length > 0)
    rows.push({
      cells: [
        'filled later',
        `${filled.length} series`,
        'Readings of before that cut-off came in after it: the last value told then is not the last any more.',
      ],
    })
  return rows
}

/** Of a measure in which nothing went beyond its interval, one says enough. */
const largest = (changed: readonly Changed[]): readonly Changed[] =>
  changed.slice(0, Math.max(1, Math.min(mostOfMeasure, changed.filter(isBeyondInterval).length)))

const countWords = (told: number, untold: number): string => {
  const more = told > 1 ? `, the largest of ${told}` : ''
  return untold === 0
    ? more
    : `${more}; ${untold} without a current value: ${untold === 1 ? 'its change is' : 'their changes are'} not known`
}

const decimalsOf = ({ series, halfWidth }: Changed): number =>
  readableDecimals(series.decimals, halfWidth === null ? series.standardUncertainty : halfWidth / 1.96)

const amount = (one: Changed, unit: string): string =>
  withUnit(`${one.change > 0 ? '+' : ''}${formatValue(one.change, decimalsOf(one))}`, unit)

function interval(one: Changed, unit: string): string {
  if (one.halfWidth === null) return 'not known'
  const decimals = decimalsOf(one)
  const ends = [one.change - one.halfWidth, one.change + one.halfWidth].map((end) =>
    formatValue(end, decimals),
  )
  const within = Math.abs(one.change) <= one.halfWidth ? '; may be none' : ''
  return `${ends[0]} to ${withUnit(ends[1] ?? '', unit)}${within}`
}

function revisedRow({ series, told, now }: Revised, timeZone: string): BoardRow {
  const words = (value: number) => withUnit(formatValue(value, series.decimals), series.unit)
  const at = (epochMs: number) => formatShortInstant(epochMs, timeZone)
  const says =
    now === null
      ? 'the reading is no longer there'
      : now.atEpochMs === told.atEpochMs
        ? `now ${words(now.value)}, by another calibration, zero or verdict`
        : `now ${words(now.value)} of ${at(now.atEpochMs)}: the reading told then has no value any more`
  return {
    cells: [
      series.point,
      `told ${words(told.value)}`,
      `${measureNames[series.measure]} of ${at(told.atEpochMs)}: ${says}.`,
    ],
    presses: true,
  }
}
