import { copyFile, link, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { instantsOfStamps, stampsOfInstants } from '#domain/reduction/clock-reach.ts'
import { monthOf, monthsBetween } from '../slices/months.ts'
import { type Recipe, recipeOfMonth } from '../slices/recipe.ts'
import { fileNames, type PublishedMonth, type SliceIndex } from '../slices/slice-index.ts'
import { sha256OfFile } from './file-hash.ts'
import type { ReadingDays } from './reading-days.ts'

/** Months as they lie in a folder, each with what it was made from where that is known. */
export interface MonthSource {
  readonly folder: string
  readonly months: Readonly<Record<string, PublishedMonth>>
  /** Whether the readings of a month are those of the set. */
  readonly isSame: (month: MonthWindow, name: string) => boolean
}

/** All stamps whose readings a month may depend on. */
export interface MonthWindow {
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
}

/** The months of a set with their windows. */
export function monthWindows(recipe: Recipe, days: ReadingDays): ReadonlyMap<string, MonthWindow> {
  if (days.instants === null) return new Map()
  const clocks = recipe.clocks.map(({ settings }) => settings)
  const { fromEpochMs, untilEpochMs } = instantsOfStamps(clocks, days.instants)
  const [lookBackMs, lookAheadMs] = [recipe.lookBackMinutes * 60_000, recipe.lookAheadMinutes * 60_000]
  return new Map(
    monthsBetween(fromEpochMs, untilEpochMs + lookBackMs).map((month) => [
      month.name,
      stampsOfInstants(clocks, {
        fromEpochMs: month.fromEpochMs - lookBackMs,
        untilEpochMs: month.untilEpochMs + lookAheadMs,
      }),
    ]),
  )
}

/**
 * Puts the files of months that are somewhere already into a folder, and returns those months: made by the recipe of
 * the set, from its readings, with content that still is what their hash says. Whatever else is made anew.
 */
export async function takeMonths(
  folder: string,
  recipe: Recipe,
  windows: ReadonlyMap<string, MonthWindow>,
  sources: readonly MonthSource[],
): Promise<Record<string, PublishedMonth>> {
  const taken: Record<string, PublishedMonth> = {}
  for (const [name, window] of windows)
    for (const source of sources) {
      const month = source.months[name]
      if (!month || month.recipe !== hashOf(recipe, name) || !source.isSame(window, name)) continue
      if (!(await takeFiles(folder, source.folder, month))) continue
      taken[name] = month
      break
    }
  return taken
}

function hashOf(recipe: Recipe, name: string): string {
  const [month] = monthOf(name)
  return month ? recipeOfMonth(recipe, month) : ''
}

/** False: one of them is gone, or is not what it was. */
async function takeFiles(folder: string, from: string, month: PublishedMonth): Promise<boolean> {
  const index: Pick<SliceIndex, 'months'> = { months: { one: month } }
  for (const [at, name] of fileNames(index as SliceIndex).entries()) {
    const path = join(folder, name)
    try {
      await linkOrCopy(join(from, name), path)
      if ((await sha256OfFile(path)) === month.slices[at]?.sha256) continue
      await rm(path, { force: true })
      return false
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return false
      throw cause
    }
  }
  return true
}

/** Two names of one file where the disk knows such; slices are never written in place. */
async function linkOrCopy(from: string, to: string): Promise<void> {
  try {
    await link(from, to)
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException
    if (code === 'EEXIST') return
    if (code === 'ENOENT' || code === 'ENOSPC') throw cause
    await copyFile(from, to)
  }
}

/** Hash by month of the readings that it was made from, as kept beside a set; null where it cannot be read. */
export async function readMonthHashes(path: string): Promise<Readonly<Record<string, string>> | null> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as Record<string, string>
  } catch {
    return null
  }
}
