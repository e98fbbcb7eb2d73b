import { groupBy } from '../group-by.ts'
import { inForceOf } from '../levels/value-levels.ts'
import { watchedBy } from '../levels/watched-by.ts'
import type { Issue } from '../outcome.ts'
import { isAnotherPerson } from '../proposals/proposal.ts'
import { checkWatchedLevels } from './check-watched-levels.ts'
import { nearestWord } from './nearest-word.ts'
import type { PlacedRow } from './read-table.ts'
import { possibleSeriesIds } from './series-ids.ts'
import type { SiteFacts } from './site.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import type { Stage, TriggerLevel } from './tables.ts'

/** Trigger levels and hold points watch series that exist, in order, approved by a second person. */
export function checkLevels(site: SiteReadings, facts: SiteFacts | null): readonly Issue[] {
  const issues: Issue[] = []
  const known = possibleSeriesIds(site)
  for (const name of ['triggerLevels', 'holdPoints'] as const)
    for (const { line, row } of site[name].sound) {
      if (known.has(row.series)) continue
      const nearest = nearestWord(row.series, known)
      issues.push({
        ...cellIssue(name, line, 'series', row.series),
        code: 'series-unknown',
        expected: `a sensor of ${site.sensors.file}, or a series that an instrument derives, such as ST-01/force`,
        message: `There is no series "${row.series}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
      })
    }
  for (const { line, row } of site.triggerLevels.sound) {
    if (!isAnotherPerson({ author: row.author, account: null }, { name: row.approver, account: null }))
      issues.push({
        ...cellIssue('triggerLevels', line, 'approver', row.approver),
        code: 'approver-is-author',
        expected: `someone other than ${row.author}`,
        message: `${row.author} cannot approve a level that ${row.author} proposed. Name a second person.`,
      })
    if (facts && row.level > facts.levelNames.length)
      issues.push({
        ...cellIssue('triggerLevels', line, 'level', row.level),
        code: 'level-unnamed',
        expected: `1 to ${facts.levelNames.length}, as levelNames in site.csv`,
        message: `Level ${row.level} has no name. Add one to levelNames in site.csv or lower the level.`,
      })
  }
  const stages = site.stages.sound.map(({ row }) => row)
  for (const { line, row } of site.triggerLevels.sound) {
    const stage = stages.find(({ id }) => id === row.stage)
    if (stage === undefined || inForceOf(row, stages) !== null) continue
    issues.push({
      ...cellIssue('triggerLevels', line, 'stage', row.stage ?? null),
      code: 'level-never-applies',
      expected: 'a stage that meets validFrom and validUntil',
      message: `${row.id} would never apply: “${stage.name}” lies outside the time for which it is valid. Correct the stage or the dates.`,
    })
  }
  for (const levels of groupBy(site.triggerLevels.sound, ({ row }) => watchedAlike(row)).values())
    issues.push(...checkOrder(levels, stages))
  return [...issues, ...checkWatchedLevels(site)]
}

/** The same of two levels that stand in one order: they watch the same thing and lie on the same side of it. */
const watchedAlike = (level: TriggerLevel): string =>
  JSON.stringify([
    level.series,
    level.direction,
    watchedBy(level),
    level.against,
    level.windowMinutes,
    level.changeSince,
  ])

/** Levels of one series and direction that apply at the same time: each further out than the one before. */
function checkOrder(levels: readonly PlacedRow<TriggerLevel>[], stages: readonly Stage[]): readonly Issue[] {
  const ordered = levels.toSorted((a, b) => a.row.level - b.row.level || a.line - b.line)
  return ordered.flatMap((outer, index): Issue[] => {
    const inner = ordered.slice(0, index).findLast((level) => applyTogether(level.row, outer.row, stages))
    if (!inner) return []
    const [one, other] = [inner.row.stage, outer.row.stage].map((id) =>
      stages.find((stage) => stage.id === id),
    )
    if (inner.row.level === outer.row.level && one && other && one !== other)
      return [
        {
          ...cellIssue('triggerLevels', outer.line, 'stage', outer.row.stage ?? null),
          code: 'stages-overlap',
          expected: 'stages that follow each other',
          message: `Level ${outer.row.level} of ${outer.row.series} would have two values while both “${one.name}” (${one.id}, line ${inner.line}) and “${other.name}” (${other.id}) last. End one with validUntil, or give one level for both.`,
        },
      ]
    if (inner.row.level === outer.row.level)
      return [
        {
          ...cellIssue('triggerLevels', outer.line, 'level', outer.row.level),
          code: 'level-repeated',
          expected: 'one value of a level at a time',
          message: `Level ${outer.row.level} of ${outer.row.series} already applies then (line ${inner.line}). End that one with validUntil.`,
        },
      ]
    if (isFurther(outer.row, inner.row)) return []
    const beyond = { above: 'above', below: 'below', either: 'further from zero than' }[outer.row.direction]
    return [
      {
        ...cellIssue('triggerLevels', outer.line, 'value', outer.row.value),
        code: 'level-order',
        expected: `${beyond} ${inner.row.value}, level ${inner.row.level} in line ${inner.line}`,
        message: `Level ${outer.row.level} of ${outer.row.series} would be reached before level ${inner.row.level}. It must lie ${beyond} ${inner.row.value}.`,
      },
    ]
  })
}

function applyTogether(a: TriggerLevel, b: TriggerLevel, stages: readonly Stage[]): boolean {
  const [one, other] = [inForceOf(a, stages), inForceOf(b, stages)]
  if (one === null || other === null) return false
  return (
    one.fromEpochMs < (other.untilEpochMs ?? Infinity) && other.fromEpochMs < (one.untilEpochMs ?? Infinity)
  )
}

function isFurther(outer: TriggerLevel, inner: TriggerLevel): boolean {
  if (outer.direction === 'above') return outer.value > inner.value
  if (outer.direction === 'below') return outer.value < inner.value
  return Math.abs(outer.value) > Math.abs(inner.value)
}
