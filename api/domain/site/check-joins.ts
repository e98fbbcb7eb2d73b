import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { isSameUnit } from '../units.ts'
import { nearestWord } from './nearest-word.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'
import type { SeriesJoin } from './tables.ts'

/**
 * A join is of two sensors of one unit, and begins no earlier than the first of them was wired. A series carries on from
 * one other and comes back to itself nowhere.
 */
export function checkJoins(site: SiteReadings): readonly Issue[] {
  const sensors = new Map(site.sensors.sound.map(({ row }) => [row.id, row]))
  const unclear = new Set(site.wiring.unsound.map(({ written }) => written.sensor))
  const wiring = groupBy(site.wiring.sound, ({ row }) => row.sensor)
  return site.joins.sound.flatMap(({ line, row }): Issue[] => {
    const issue = (
      column: keyof SeriesJoin & string,
      code: string,
      expected: string,
      message: string,
    ): Issue => ({
      ...cellIssue('joins', line, column, column === 'at' ? showInstant(row.at) : row[column]),
      code,
      expected,
      message,
    })
    const strangers = (['series', 'follows'] as const).filter(
      (column) => !site.sensors.names.has(row[column]),
    )
    if (strangers.length > 0)
      return strangers.map((column) => {
        const nearest = nearestWord(row[column], site.sensors.names.keys())
        return issue(
          column,
          'series-unknown',
          `a sensor of ${site.sensors.file}`,
          `There is no sensor "${row[column]}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
        )
      })
    if (row.series === row.follows)
      return [
        issue(
          'follows',
          'join-to-itself',
          'another series',
          `${row.id} would join ${row.series} to itself. Name the series that it carries on from.`,
        ),
      ]
    const also = site.joins.sound.find((one) => one.line < line && one.row.series === row.series)
    if (also)
      return [
        issue(
          'series',
          'join-repeated',
          'one join of a series',
          `${row.series} already carries on from ${also.row.follows} (line ${also.line}); it cannot stand on two levels. Keep the join that holds.`,
        ),
      ]
    const ring = comesBack(
      site.joins.sound.map((one) => one.row),
      row,
    )
    if (ring)
      return [
        issue(
          'follows',
          'join-in-ring',
          'a series that came before',
          `${row.follows} in its turn carries on from ${row.series}, through other joins perhaps: neither came first. Take one of the joins out.`,
        ),
      ]
    const [own, other] = [sensors.get(row.series), sensors.get(row.follows)]
    const found: Issue[] = []
    if (own && other && !isSameUnit(own.unit, other.unit))
      found.push(
        issue(
          'follows',
          'join-of-units',
          `a series in ${own.unit}`,
          `${own.id} (${own.unit}) cannot carry on from ${other.id} (${other.unit}): no offset makes one unit of the two. Name another series.`,
        ),
      )
    const begins = unclear.has(row.series)
      ? Number.NEGATIVE_INFINITY
      : Math.min(...(wiring.get(row.series) ?? []).map(({ row }) => row.fromAt))
    if (row.at < begins)
      found.push(
        issue(
          'at',
          'join-before-series',
          begins === Infinity ? `wiring of ${row.series}` : `${showInstant(begins)} or later`,
          begins === Infinity
            ? `${row.series} was never wired, so it cannot carry on from ${row.follows}. Add its wiring to ${site.wiring.file}.`
            : `${row.series} begins at ${showInstant(begins)}, when it was first wired; it cannot stand for ${row.follows} before. Correct the instant.`,
        ),
      )
    return found
  })
}

/** True where what a join's series carries on from leads back to that series. */
function comesBack(joins: readonly SeriesJoin[], { series, follows }: SeriesJoin): boolean {
  const seen = new Set<string>()
  for (let at: string | undefined = follows; at !== undefined && !seen.has(at); ) {
    if (at === series) return true
    seen.add(at)
    const from: string = at
    at = joins.find((join) => join.series === from)?.follows
  }
  return false
}
