import { type Outcome, reject } from '../outcome.ts'
import { instantsByClock } from '../reduction/clock-reach.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxLink, SandboxRecipe } from './sandbox-recipe.ts'
import { isMeant } from './series-pattern.ts'

/** Links of the series of a change, cut where it begins and ends; those within are handed to `edit`. */
export function editLinks(
  links: readonly SandboxLink[],
  change: SandboxChange,
  edit: (link: SandboxLink) => Outcome<readonly SandboxLink[]>,
): Outcome<readonly SandboxLink[]> {
  const edited: SandboxLink[] = []
  for (const link of links) {
    const [before, within, after] = isMeant(change.series, link.series) ? cut(link, change) : [link]
    if (before) edited.push(before)
    if (within) {
      const made = edit(within)
      if (!made.ok) return made
      edited.push(...made.value)
    }
    if (after) edited.push(after)
  }
  return { ok: true, value: edited }
}

type Cut = readonly [before: SandboxLink | null, within?: SandboxLink | null, after?: SandboxLink | null]

/** A link before, within and after the time of a change; null for what is empty. */
function cut(link: SandboxLink, { fromEpochMs, untilEpochMs }: SandboxChange): Cut {
  const until = untilEpochMs ?? Number.POSITIVE_INFINITY
  return [
    part(link, link.fromEpochMs, Math.min(link.untilEpochMs, fromEpochMs)),
    part(link, Math.max(link.fromEpochMs, fromEpochMs), Math.min(link.untilEpochMs, until)),
    part(link, Math.max(link.fromEpochMs, until), link.untilEpochMs),
  ]
}

export const part = (link: SandboxLink, fromEpochMs: number, untilEpochMs: number): SandboxLink | null =>
  fromEpochMs < untilEpochMs ? { ...link, fromEpochMs, untilEpochMs } : null

/** Links that a change touches, whole. */
export function linksWithin(links: readonly SandboxLink[], change: SandboxChange): readonly SandboxLink[] {
  const time = instantsOfChange(change)
  return links.filter(
    ({ series, fromEpochMs, untilEpochMs }) =>
      isMeant(change.series, series) && fromEpochMs < time.untilEpochMs && time.fromEpochMs < untilEpochMs,
  )
}

/** The time of a change by instants: a clock has its own by stamps, and is of the logger that was read once it is put right. */
function instantsOfChange(change: SandboxChange): { fromEpochMs: number; untilEpochMs: number } {
  const time = { ...change, untilEpochMs: change.untilEpochMs ?? Number.POSITIVE_INFINITY }
  if (change.kind !== 'clock' || !Number.isFinite(change.offsetSeconds + change.driftSecondsPerDay))
    return time
  const { fromEpochMs, offsetSeconds, driftSecondsPerDay } = change
  const setting = { fromEpochMs, addedSeconds: offsetSeconds, addedSecondsPerDay: driftSecondsPerDay }
  return instantsByClock([setting], time)
}

/** Why a change touches nothing, or null where it touches something. */
export function nothingTouched(recipe: SandboxRecipe, change: SandboxChange): string | null {
  const { series } = change
  if (linksWithin(recipe.links, change).some(({ steps }) => steps !== null)) return null
  if (recipe.bundles.some(({ outputs }) => outputs.some(({ id }) => isMeant(series, id))))
    return `${series} is made from other series by its instrument: change one of those that it is made from.`
  if (linksWithin(recipe.links, change).length > 0)
    return `No calibration of ${series} is in force then, so there is nothing to change.`
  return `${series} is not wired in that time. Choose another instant or another series.`
}

/** A refusal that stands beside the field that it is about. */
export const refuse = (field: string, code: string, message: string, value = '', expected = '') =>
  reject({ code, column: field, value, expected, message })
