import { type Cause, causes } from './cause.ts'
import type { Evidence } from './evidence.ts'
import type { EvidenceTable } from './rank-causes.ts'

/** A line of evidence that one of two tables lacks, or that weighs otherwise in it. */
export interface ChangedLine {
  readonly cause: Cause
  readonly now: Evidence | null
  readonly earlier: Evidence | null
}

export interface TablesCompared {
  readonly causes: readonly { readonly cause: Cause; readonly now: number; readonly earlier: number }[]
  /** Most changed first. */
  readonly changed: readonly ChangedLine[]
}

/** A weight that moved by less says the same. */
const leastDecibans = 1

/** Two tables of one series beside each other: what each cause had, and which lines came, went or weigh otherwise. */
export function compareTables(now: EvidenceTable, earlier: EvidenceTable): TablesCompared {
  const totalOf = (table: EvidenceTable, cause: Cause) =>
    table.ranked.find((one) => one.cause === cause)?.decibans ?? 0
  const changed = causes.flatMap((cause) => {
    const [here, before] = [linesOf(now, cause), linesOf(earlier, cause)]
    return [...new Set([...here.keys(), ...before.keys()])].flatMap((key): ChangedLine[] => {
      const line = { cause, now: here.get(key) ?? null, earlier: before.get(key) ?? null }
      return changeOf(line) >= leastDecibans ? [line] : []
    })
  })
  return {
    causes: now.ranked.map(({ cause, decibans }) => ({
      cause,
      now: decibans,
      earlier: totalOf(earlier, cause),
    })),
    changed: changed.toSorted((one, other) => changeOf(other) - changeOf(one)),
  }
}

/** What is missing weighs nothing, but that something is missing is told as a change of its own. */
function changeOf({ now, earlier }: ChangedLine): number {
  if (now?.stands !== earlier?.stands)
    return Math.max(leastDecibans, Math.abs((now?.decibans ?? 0) - (earlier?.decibans ?? 0)))
  return Math.abs((now?.decibans ?? 0) - (earlier?.decibans ?? 0))
}

/** Lines of a cause by rule; those of one rule by their place among them. */
function linesOf({ ranked }: EvidenceTable, cause: Cause): ReadonlyMap<string, Evidence> {
  const counts = new Map<string, number>()
  return new Map(
    (ranked.find((one) => one.cause === cause)?.evidence ?? []).map((line) => {
      const place = counts.get(line.rule) ?? 0
      counts.set(line.rule, place + 1)
      return [`${line.rule} ${place}`, line] as const
    }),
  )
}
