import { checks } from '../flags/checks.ts'
import type { Issue } from '../outcome.ts'
import { isSameUnit } from '../units.ts'
import { nearestWord } from './nearest-word.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import type { CheckLimit } from './tables.ts'

/** Limits of checks name a sensor or a measure, hold at least one number, and put `fail` no nearer than `suspect`. */
export function checkLimitsOfChecks(site: SiteReadings): readonly Issue[] {
  const sensors = new Map(site.sensors.sound.map(({ row }) => [row.id, row]))
  const seen = new Map<string, number>()
  return site.checkLimits.sound.flatMap(({ line, row }): Issue[] => {
    const issue = (
      column: keyof CheckLimit & string,
      code: string,
      expected: string,
      message: string,
    ): Issue => ({ ...cellIssue('checkLimits', line, column, row[column] ?? null), code, expected, message })
    const unknown = (column: 'series' | 'against', name: string) => {
      const nearest = nearestWord(name, site.sensors.names.keys())
      return issue(
        column,
        'series-unknown',
        `a sensor of ${site.sensors.file}`,
        `There is no sensor "${name}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
      )
    }
    const found: Issue[] = []
    if ((row.series === null) === (row.measure === null))
      found.push(
        issue(
          'series',
          'series-or-measure',
          'either a series or a measure',
          `${row.id} must name either one series or one measure, so that it is clear what it is for.`,
        ),
      )
    if (row.series !== null && !site.sensors.names.has(row.series)) found.push(unknown('series', row.series))
    const { looksBelow, greatestLimit } = checks[row.check]
    const limits = [row.suspectBelow, row.suspectAbove, row.failBelow, row.failAbove]
    if (limits.every((limit) => limit === null))
      found.push(
        issue(
          'suspectAbove',
          'limit-missing',
          'at least one limit',
          `${row.id} holds no limit, so it checks nothing. Give one, or take the row out.`,
        ),
      )
    if (!looksBelow && (row.suspectBelow !== null || row.failBelow !== null))
      found.push(
        issue(
          row.suspectBelow === null ? 'failBelow' : 'suspectBelow',
          'limit-without-meaning',
          'empty',
          `The ${row.check} check looks at a size, which is never too small. Leave the limits below empty.`,
        ),
      )
    for (const column of ['suspectAbove', 'failAbove'] as const)
      if (greatestLimit !== null && (row[column] ?? 0) > greatestLimit)
        found.push(
          issue(
            column,
            'out-of-range',
            `at most ${greatestLimit}`,
            `Checks look back a day: a ${row.check} longer than ${greatestLimit} ${checks[row.check].unit} cannot be told. Lower the limit.`,
          ),
        )
    if (isInside(row.failAbove, row.suspectAbove) || isInside(row.suspectBelow, row.failBelow))
      found.push(
        issue(
          isInside(row.failAbove, row.suspectAbove) ? 'failAbove' : 'failBelow',
          'limit-order',
          'no nearer than the suspect limit',
          `${row.id} would fail a reading before it is suspect. Put the fail limit further out.`,
        ),
      )
    if ((row.check === 'duplicate') !== (row.against !== null))
      found.push(
        issue(
          'against',
          'against-expected',
          row.check === 'duplicate' ? 'the series beside it' : 'empty',
          row.check === 'duplicate'
            ? `${row.id} must name in against the series that it is compared with.`
            : `${row.id} compares with no other series. Leave against empty.`,
        ),
      )
    const own = sensors.get(row.series ?? '')
    const other = sensors.get(row.against ?? '')
    if (row.against !== null && !site.sensors.names.has(row.against))
      found.push(unknown('against', row.against))
    else if (own && other && (own.id === other.id || !isSameUnit(own.unit, other.unit)))
      found.push(
        issue(
          'against',
          'against-unlike',
          `another series in ${own.unit}`,
          `${own.id} (${own.unit}) cannot be compared with ${other.id} (${other.unit}). Name another series of the same unit.`,
        ),
      )
    const key = `${row.series ?? row.measure} ${row.check} ${row.validFrom ?? ''}`
    const earlier = seen.get(key)
    if (earlier === undefined) seen.set(key, line)
    else
      found.push(
        issue(
          'check',
          'limit-repeated',
          'one row a series, check and validFrom',
          `Line ${earlier} already holds the limits of this check of ${row.series ?? row.measure}. Keep one of them, or say with validFrom from when the later ones hold.`,
        ),
      )
    return found
  })
}

const isInside = (outer: number | null, inner: number | null): boolean =>
  outer !== null && inner !== null && outer < inner
