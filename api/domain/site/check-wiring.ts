import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import type { PlacedRow } from './read-table.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'
import type { Wiring } from './tables.ts'

/** At any instant a channel reads at most one sensor, and a sensor is read by at most one channel. */
export function checkWiring(site: SiteReadings): readonly Issue[] {
  const rows = site.wiring.sound
  const channelOf = ({ row }: PlacedRow<Wiring>) => JSON.stringify([row.logger, row.channel])
  return [
    ...[...groupBy(rows, channelOf).values()].flatMap((rows) =>
      overlaps(
        rows.filter((row, index) => rows.findIndex((other) => other.row.fromAt === row.row.fromAt) === index),
      ).map(({ earlier, later }) => ({
        ...cellIssue('wiring', later.line, 'fromAt', showInstant(later.row.fromAt)),
        code: 'channel-wired-twice',
        expected: `not before untilAt of line ${earlier.line}`,
        message: `Channel ${later.row.channel} of ${later.row.logger} already reads ${earlier.row.sensor} then (line ${earlier.line}, until ${showInstant(earlier.row.untilAt)}). End that wiring first.`,
      })),
    ),
    ...[...groupBy(rows, ({ row }) => row.sensor).values()].flatMap((rows) =>
      overlaps(rows)
        .filter(({ earlier, later }) => channelOf(earlier) !== channelOf(later))
        .map(({ earlier, later }) => ({
          ...cellIssue('wiring', later.line, 'sensor', later.row.sensor),
          code: 'sensor-wired-twice',
          expected: 'one channel at a time',
          message: `${later.row.sensor} is already read by channel ${earlier.row.channel} of ${earlier.row.logger} then (line ${earlier.line}, until ${showInstant(earlier.row.untilAt)}). End that wiring first.`,
        })),
    ),
  ]
}

/** Each row against the earlier one that lasts longest. Instants of untilAt are no longer valid. */
function overlaps(rows: readonly PlacedRow<Wiring>[]) {
  const found: { earlier: PlacedRow<Wiring>; later: PlacedRow<Wiring> }[] = []
  const endOf = ({ row }: PlacedRow<Wiring>) => row.untilAt ?? Number.POSITIVE_INFINITY
  let longest: PlacedRow<Wiring> | undefined
  for (const later of rows.toSorted((a, b) => a.row.fromAt - b.row.fromAt || a.line - b.line)) {
    if (longest && later.row.fromAt < endOf(longest)) found.push({ earlier: longest, later })
    if (!longest || endOf(later) > endOf(longest)) longest = later
  }
  return found
}
