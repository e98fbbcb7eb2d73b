import { createHash } from 'node:crypto'
import { expectedStretches, inBoth } from '#domain/alerts/expected-stretches.ts'
import type { GroupedLevel } from '#domain/alerts/level-group.ts'
import { inForceOf, type Stretch } from '#domain/levels/value-levels.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { type Recipe, readRecipe } from '../slices/recipe.ts'
import { createSeriesNeeds, type SeriesNeeds } from '../slices/series-needs.ts'
import type { Store } from '../store/store.ts'

/** Levels that are folded together, and the series that they hang on. */
export interface WatchedGroup {
  /** Changes whenever one of its levels, or how one of its series is made, does. */
  readonly key: string
  readonly levels: readonly GroupedLevel[]
  readonly series: readonly number[]
}

/** What of a site is watched, from its records. */
export interface WatchPlan {
  readonly model: SiteModel
  readonly recipe: Recipe
  readonly needs: SeriesNeeds
  readonly groups: readonly WatchedGroup[]
  readonly groupOf: ReadonlyMap<number, WatchedGroup>
  readonly levels: ReadonlyMap<string, TriggerLevel>
  readonly combinations: readonly TriggerLevel[]
  /** By the id of a series. */
  readonly lateAfterMinutes: ReadonlyMap<string, number>
  /** When values of each series are expected, by its id. */
  readonly expected: ReadonlyMap<string, readonly Stretch[]>
  /** Levels on series that the site does not have: nothing can be held against them. */
  readonly unfounded: readonly TriggerLevel[]
}

export async function planWatching(store: Store, site: string): Promise<WatchPlan> {
  const model = await store.getSite(site)
  if (!model) throw new Error(`There is no site "${site}" to evaluate.`)
  const recipe = await readRecipe(store, site, model)
  const needs = createSeriesNeeds(recipe)
  const expected = expectedStretches(model, recipe.bundles)
  const grouped: GroupedLevel[] = []
  const combinations: TriggerLevel[] = []
  const unfounded: TriggerLevel[] = []
  for (const level of model.triggerLevels) {
    const series = recipe.numberOf.get(level.series)
    const against = watchedBy(level) === 'difference' ? recipe.numberOf.get(level.against ?? '') : null
    if (watchedBy(level) === 'combination') combinations.push(level)
    else if (series === undefined || against === undefined) unfounded.push(level)
    else grouped.push({ level, series, against, inForce: stretchesOf(level, model, expected) })
  }
  const groups = groupLevels(grouped, needs)
  return {
    model,
    recipe,
    needs,
    groups,
    groupOf: new Map(groups.flatMap((group) => group.series.map((series) => [series, group]))),
    levels: new Map(model.triggerLevels.map((level) => [level.id, level])),
    combinations,
    lateAfterMinutes: new Map(recipe.series.map((one) => [one.id, one.lateAfterMinutes])),
    expected,
    unfounded,
  }
}

function stretchesOf(
  level: TriggerLevel,
  model: SiteModel,
  expected: WatchPlan['expected'],
): readonly Stretch[] {
  const stretch = inForceOf(level, model.stages)
  if (stretch === null) return []
  if (watchedBy(level) === 'silence') {
    // A channel that is wired again owes its first reading no sooner than the level allows.
    const due = (expected.get(level.series) ?? []).map((one, at) =>
      at === 0 ? one : { ...one, fromEpochMs: one.fromEpochMs + level.value * 60_000 },
    )
    return inBoth([stretch], due)
  }
  if (level.changeSince == null) return [stretch]
  return inBoth([stretch], [{ fromEpochMs: level.changeSince, untilEpochMs: null }])
}

/** Levels of one series together, and with a difference those of both. */
function groupLevels(levels: readonly GroupedLevel[], needs: SeriesNeeds): readonly WatchedGroup[] {
  const members = new Map<number, Set<number>>()
  const setOf = (series: number) => members.get(series) ?? new Set([series])
  for (const { series, against } of levels) {
    const joined = new Set([...setOf(series), ...(against === null ? [] : setOf(against))])
    for (const one of joined) members.set(one, joined)
  }
  const own = new Map<Set<number>, GroupedLevel[]>()
  for (const level of levels) {
    const set = setOf(level.series)
    own.set(set, [...(own.get(set) ?? []), level])
  }
  return [...own].map(([set, together]) => {
    const series = [...set].toSorted((one, other) => one - other)
    const sorted = together.toSorted((one, other) => (one.level.id < other.level.id ? -1 : 1))
    const key = createHash('sha256')
      .update(JSON.stringify([sorted, series.map((one) => needs.hashOf(one))]))
      .digest('base64url')
    return { key, levels: sorted, series }
  })
}
