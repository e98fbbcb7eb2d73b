import { membersOf, watchedBy } from '../levels/watched-by.ts'
import type { Issue } from '../outcome.ts'
import { isSameUnit } from '../units.ts'
import { nearestWord } from './nearest-word.ts'
import { possibleSeriesIds } from './series-ids.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import type { TriggerLevel } from './tables.ts'
import type { WatchedOfSeries } from './vocabulary.ts'

type Heading = keyof TriggerLevel & string

/** What a level of each kind needs beside its value, and what it may have; everything else stays empty. */
const columnsOf: Readonly<Record<WatchedOfSeries, { needs: readonly Heading[]; may: readonly Heading[] }>> = {
  value: { needs: [], may: ['holdReadings', 'holdMinutes', 'hysteresisShare', 'longestGapMinutes'] },
  change: {
    needs: ['changeSince'],
    may: ['holdReadings', 'holdMinutes', 'hysteresisShare', 'longestGapMinutes'],
  },
  rate: {
    needs: ['windowMinutes'],
    may: ['holdReadings', 'holdMinutes', 'hysteresisShare', 'longestGapMinutes'],
  },
  difference: {
    needs: ['against', 'windowMinutes'],
    may: ['holdReadings', 'holdMinutes', 'hysteresisShare', 'longestGapMinutes'],
  },
  silence: { needs: [], may: ['holdMinutes'] },
  combination: { needs: ['against'], may: ['needed'] },
}

const kindColumns: readonly Heading[] = [
  'against',
  'needed',
  'windowMinutes',
  'changeSince',
  'holdReadings',
  'holdMinutes',
  'hysteresisShare',
  'longestGapMinutes',
]

/** Each level has what its kind needs and nothing that its kind does not look at. */
export function checkWatchedLevels(site: SiteReadings): readonly Issue[] {
  const series = possibleSeriesIds(site)
  const units = new Map(site.sensors.sound.map(({ row }) => [row.id, row.unit]))
  return [
    ...site.triggerLevels.sound.flatMap(({ line, row }): Issue[] => {
      const kind = watchedBy(row)
      const issue = (column: Heading, code: string, expected: string, message: string): Issue => ({
        ...cellIssue('triggerLevels', line, column, row[column] ?? null),
        code,
        expected,
        message,
      })
      const found: Issue[] = []
      const { needs, may } = columnsOf[kind]
      for (const column of kindColumns) {
        const given = row[column] != null
        if (needs.includes(column) && !given)
          found.push(
            issue(
              column,
              'level-incomplete',
              `${column}, for ${kind}`,
              `${row.id} watches ${words[kind]}: give ${column}.`,
            ),
          )
        if (given && !needs.includes(column) && !may.includes(column))
          found.push(
            issue(
              column,
              'column-without-meaning',
              'empty',
              `${row.id} watches ${words[kind]}, which does not look at ${column}. Leave it empty.`,
            ),
          )
      }
      if (!/[\p{L}\p{N}]/u.test(row.action))
        found.push(
          issue(
            'action',
            'action-missing',
            'what is done',
            `${row.id} says no action. A level that starts nothing is not kept: say what is done when it is reached.`,
          ),
        )
      if (kind === 'silence' || kind === 'combination') {
        if (row.direction !== 'above')
          found.push(
            issue(
              'direction',
              'direction-without-meaning',
              'above',
              `${row.id} watches ${words[kind]}, which is reached from below alone. Write above.`,
            ),
          )
        if (row.value <= 0)
          found.push(
            issue(
              'value',
              'out-of-range',
              'more than 0',
              `${row.id}: give ${kind === 'silence' ? 'the minutes that may pass without a reading' : 'how many of its levels must be reached at once'}, more than 0.`,
            ),
          )
      }
      if (kind === 'change' && row.changeSince != null && row.changeSince > row.validFrom)
        found.push(
          issue(
            'changeSince',
            'change-since-later',
            'no later than validFrom',
            `${row.id} applies before the instant that it counts from, and would watch nothing until then. Begin it no earlier, or count from an earlier instant.`,
          ),
        )
      if (kind === 'difference' && row.against != null) {
        const [own, other] = [units.get(row.series), units.get(row.against)]
        const nearest = nearestWord(row.against, series)
        if (!series.has(row.against))
          found.push(
            issue(
              'against',
              'series-unknown',
              'a series of the site',
              `There is no series "${row.against}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
            ),
          )
        else if (
          row.against === row.series ||
          (measureOf(row.against) !== measureOf(row.series) &&
            (own === undefined || other === undefined || !isSameUnit(own, other)))
        )
          found.push(
            issue(
              'against',
              'against-unlike',
              'another series that measures the same',
              `${row.against} cannot be taken from ${row.series}. Name another series that measures the same, in the same unit.`,
            ),
          )
      }
      return found
    }),
    ...checkCombinations(site),
  ]
}

const words: Readonly<Record<WatchedOfSeries, string>> = {
  value: 'the value',
  change: 'a change',
  rate: 'a rate',
  difference: 'a difference',
  silence: 'silence',
  combination: 'other levels together',
}

/** Combinations name two levels or more that exist, need no more than they have, and never come back to themselves. */
function checkCombinations(site: SiteReadings): readonly Issue[] {
  const names = new Set(site.triggerLevels.names.keys())
  const members = new Map(
    site.triggerLevels.sound.map(({ row }) => [
      row.id,
      watchedBy(row) === 'combination' ? membersOf(row) : [],
    ]),
  )
  return site.triggerLevels.sound.flatMap(({ line, row }): Issue[] => {
    if (watchedBy(row) !== 'combination' || row.against == null) return []
    const own = membersOf(row)
    const cell = cellIssue('triggerLevels', line, 'against', row.against)
    const found: Issue[] = own
      .filter((id) => !names.has(id))
      .map((id) => {
        const nearest = nearestWord(id, names)
        return {
          ...cell,
          code: 'level-unknown',
          expected: 'ids of trigger levels, separated by semicolons',
          message: `There is no level "${id}". ${nearest ? `Did you mean "${nearest}"?` : 'Name levels by their id.'}`,
        }
      })
    if (new Set(own).size < 2 || new Set(own).size < own.length)
      found.push({
        ...cell,
        code: 'members-too-few',
        expected: 'two levels or more, each once',
        message: `${row.id} puts levels together: name two or more, each once, separated by semicolons.`,
      })
    const needed = row.needed ?? own.length
    if (needed > own.length)
      found.push({
        ...cellIssue('triggerLevels', line, 'needed', row.needed ?? null),
        code: 'out-of-range',
        expected: `at most ${own.length}`,
        message: `${row.id} needs ${needed} levels at once of ${own.length}, and would never be reached. Lower needed or name more levels.`,
      })
    else if (row.value !== needed)
      found.push({
        ...cellIssue('triggerLevels', line, 'value', row.value),
        code: 'value-unlike-needed',
        expected: String(needed),
        message: `The value of a combination is how many of its levels must be reached at once: write ${needed}.`,
      })
    if (comesBack(row.id, members))
      found.push({
        ...cell,
        code: 'combination-of-itself',
        expected: 'levels that are not made of this one',
        message: `${row.id} is, through its levels, made of itself. Let combinations name only levels that stand without them.`,
      })
    return found
  })
}

function comesBack(start: string, members: ReadonlyMap<string, readonly string[]>): boolean {
  const passed = new Set<string>()
  const next = [...(members.get(start) ?? [])]
  for (let id = next.pop(); id !== undefined; id = next.pop()) {
    if (id === start) return true
    if (passed.has(id)) continue
    passed.add(id)
    next.push(...(members.get(id) ?? []))
  }
  return false
}

const measureOf = (series: string): string => series.slice(series.lastIndexOf('/') + 1)
