import type { Series } from '#contract/site-document.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { judgeEnd, judgeLevel, type LevelToJudge, type WatchedSeries } from '#domain/levels/judge-level.ts'
import { applyChanges, type ProposedChange } from '#domain/levels/level-change.ts'
import type { ProposalRemark } from '#domain/levels/level-proposal.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { modelFaults } from '#domain/site/check-model.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables, type TriggerLevel } from '#domain/site/tables.ts'

export interface ProposalToJudge {
  readonly model: SiteModel
  readonly series: readonly Series[]
  readonly changes: readonly ProposedChange[]
  readonly author: string
  readonly reason: string
  /** Past episodes of the levels that are replaced or ended, by id. */
  readonly episodes: ReadonlyMap<string, readonly Episode[]>
  readonly presentEpochMs: number
}

/** Stands for whoever will approve, while nobody has. */
const notYet = '(not yet approved)'

/**
 * What speaks against a proposal: by itself, and by the checks that the whole site must pass with it. Refused where it
 * cannot be applied at all.
 */
export function judgeProposal(given: ProposalToJudge): Outcome<readonly ProposalRemark[]> {
  const { model, changes, author, reason, episodes, presentEpochMs } = given
  const applied = applyChanges(model.triggerLevels, changes, {
    author,
    approver: notYet,
    atEpochMs: presentEpochMs,
  })
  if (!applied.ok) return applied
  const remarks = levelFaults(model, applied.value).map(
    ({ code, message, value }): ProposalRemark => ({
      severity: 'fault',
      level: value ?? null,
      code,
      sentence: message,
    }),
  )
  remarks.push(...leftBehind(applied.value, changes))
  const watched = new Map(given.series.map((one) => [one.id, one]))
  for (const change of changes) {
    const before = change.before && {
      level: change.before,
      episodes: episodes.get(change.before.id) ?? [],
    }
    if (change.kind === 'end') {
      if (before)
        remarks.push(...judgeEnd(reason, before, presentEpochMs).map((one) => ({ ...one, level: change.id })))
      remarks.push(...unwatched(applied.value, change))
      continue
    }
    const { level } = change
    const series = watched.get(level.series)
    const toJudge: LevelToJudge = {
      // A design review may be named in the reason of the level or of the proposal.
      level: { ...level, reason: `${level.reason} ${reason}` },
      series: series ? watchedSeries(model, series) : null,
      before,
      beside: applied.value.filter(({ id, series: of }) => of === level.series && id !== level.id),
      stages: model.stages,
      presentEpochMs,
    }
    remarks.push(...judgeLevel(toJudge).map((one) => ({ ...one, level: level.id })))
  }
  return accept(onceEach(remarks))
}

/** A series that nothing watches once a level has ended. */
function unwatched(
  levels: readonly TriggerLevel[],
  { id, atEpochMs, before }: ProposedChange & { readonly kind: 'end' },
): readonly ProposalRemark[] {
  const series = before?.series
  const others = levels.some(
    (one) =>
      one.id !== id && one.series === series && (one.validUntil === null || one.validUntil > atEpochMs),
  )
  if (series === undefined || others) return []
  const sentence = `After it no level watches ${series}: whatever it does then raises nothing.`
  return [{ severity: 'warning', level: id, code: 'nothing-watches', sentence }]
}

/** Combinations that go on counting a level that is ended or replaced. */
function leftBehind(
  levels: readonly TriggerLevel[],
  changes: readonly ProposedChange[],
): readonly ProposalRemark[] {
  const touched = new Set(changes.flatMap((change) => (change.kind === 'add' ? [] : [change.id])))
  const ends = new Map(levels.map(({ id, validUntil }) => [id, validUntil ?? Infinity]))
  return levels.flatMap((level): ProposalRemark[] => {
    if (watchedBy(level) !== 'combination') return []
    const members = membersOf(level)
    const until = level.validUntil ?? Infinity
    const gone = members.filter((id) => touched.has(id) && (ends.get(id) ?? 0) < until)
    const left = members.filter((id) => (ends.get(id) ?? 0) >= until).length
    if (gone.length === 0) return []
    const never = left < (level.needed ?? members.length)
    return [
      {
        severity: never ? 'fault' : 'warning',
        level: level.id,
        code: 'combination-left-behind',
        sentence: never
          ? `It counts ${gone.join(', ')}, which ends before it, and could then never be reached. End it too, or put one in its place that counts what follows.`
          : `It counts ${gone.join(', ')}, which ends before it: fewer levels are left to reach it.`,
      },
    ]
  })
}

/** The site's levels after an approval, if nothing speaks against them as the site is now. */
export function approvedLevels(
  model: SiteModel,
  changes: readonly ProposedChange[],
  by: Parameters<typeof applyChanges>[2],
): Outcome<readonly TriggerLevel[]> {
  const applied = applyChanges(model.triggerLevels, changes, by)
  if (!applied.ok) return applied
  const faults = levelFaults(model, applied.value)
  return faults.length > 0 ? reject(...faults) : applied
}

/** Faults of the trigger levels of a site; `value` is the id of the level. Those that it has already are left out. */
function levelFaults(model: SiteModel, levels: readonly TriggerLevel[]): readonly Issue[] {
  const of = (rows: readonly TriggerLevel[]) =>
    modelFaults({ ...model, triggerLevels: rows })
      .filter(({ file }) => file === siteTables.triggerLevels.file)
      .map((issue) => byName(issue, rows))
  const found = of(levels)
  if (found.length === 0 || model.triggerLevels.length === 0) return found
  const known = new Set(of(model.triggerLevels).map(({ message }) => message))
  return found.filter(({ message }) => !known.has(message))
}

/** Lines of a file mean nothing to who proposes in the page: the levels themselves are named. */
function byName({ line, message, ...issue }: Issue, rows: readonly TriggerLevel[]): Issue {
  const nameAt = (given: number) => rows[given - 2]?.id ?? `line ${given}`
  return {
    ...issue,
    value: nameAt(line ?? 0),
    message: message.replaceAll(/\bline (\d+)\b/g, (_, given: string) => nameAt(Number(given))),
  }
}

function watchedSeries(model: SiteModel, series: Series): WatchedSeries {
  const sensor = model.sensors.find(({ id }) => id === series.id)
  return {
    id: series.id,
    measure: series.measure,
    unit: series.unit,
    standardUncertainty: series.standardUncertainty,
    independent: series.uncertaintyPeriods?.at(-1)?.independent ?? null,
    rangeLow: sensor?.rangeLow ?? null,
    rangeHigh: sensor?.rangeHigh ?? null,
    intervalMinutes: series.intervalMinutes,
  }
}

const onceEach = (remarks: readonly ProposalRemark[]): readonly ProposalRemark[] => {
  const seen = new Set<string>()
  return remarks.filter(({ level, code }) => {
    const key = JSON.stringify([level, code])
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
