import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { seriesNeeded } from '#domain/alerts/fold-levels.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import { compareLevels } from '#domain/what-if/compare-levels.ts'
import { compareSeries } from '#domain/what-if/compare-series.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { isMeant } from '#domain/what-if/series-pattern.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { createRaw } from './create-raw.ts'

const dayMs = 86_400_000

/** One series officially and in the sandbox, over some days before the clock, with levels and differences. */
export function createSandbox(
  subject: () => Series | null,
  days: () => number,
  changes: () => readonly SandboxChange[],
) {
  const stretch = createMemo(() => {
    const at = clockEpochMs()
    if (at === null) return null
    // Whole hours: a clock that runs asks no more often.
    const asOfEpochMs = Math.floor(at / 3_600_000) * 3_600_000
    return { fromEpochMs: asOfEpochMs - days() * dayMs, untilEpochMs: asOfEpochMs + 1, asOfEpochMs }
  })
  const raw = createRaw(() => {
    const [on, over] = [subject(), stretch()]
    if (!on || !over) return null
    const series = [...new Set([on.id, ...mentioned(changes()), ...besideInLevels(on.id)])].sort()
    return { series, fromEpochMs: over.fromEpochMs, untilEpochMs: over.untilEpochMs }
  })
  const official = createMemo(() => {
    const known = raw.known()
    return (
      known && reduceRaw(known.recipe, known.readings, known.wanted.fromEpochMs, known.wanted.untilEpochMs)
    )
  })
  const run = createMemo(() => {
    const known = raw.known()
    return known && runSandbox(known, changes(), known.wanted.fromEpochMs, known.wanted.untilEpochMs)
  })
  const compared = createMemo(() => {
    const on = subject()
    const [own, other] = [official()?.get(on?.id ?? ''), run()?.values.get(on?.id ?? '')]
    return on && own && other
      ? { official: own, sandbox: other, comparison: compareSeries(own, other, on.intervalMinutes) }
      : null
  })
  /** Series whose values are others in the sandbox. */
  const moved = createMemo((): ReadonlySet<string> => {
    const [before, after] = [official(), run()?.values]
    if (!before || !after) return new Set()
    return new Set([...before.keys()].filter((id) => !isSame(before.get(id), after.get(id))))
  })
  const levels = createMemo(() => {
    const [document, on, over, before, after] = [
      siteDocument(),
      subject(),
      stretch(),
      official(),
      run()?.values,
    ]
    if (!document || !on || !over || !before || !after) return null
    return compareLevels({
      levels: document.triggerLevels,
      stages: document.stages,
      series: new Set([on.id, ...moved()]),
      official: before,
      sandbox: after,
      fromEpochMs: over.fromEpochMs,
      asOfEpochMs: over.asOfEpochMs,
    })
  })
  return { stretch, raw, official, run, compared, moved, levels }
}

/** What levels on a series are told with beside it, so that they can be judged here too. */
function besideInLevels(series: string): readonly string[] {
  const levels = siteDocument()?.triggerLevels ?? []
  const members = levels
    .filter((level) => watchedBy(level) === 'combination')
    .map((level) => membersOf(level))
  const own = new Set(levels.filter((level) => seriesNeeded([level]).has(series)).map(({ id }) => id))
  const joined = new Set(members.filter((ids) => ids.some((id) => own.has(id))).flat())
  const asked = levels.filter(({ id }) => own.has(id) || joined.has(id))
  const known = siteLookup().seriesById
  return [...seriesNeeded(asked)].filter((id) => known.has(id))
}

/** Series that changes name, as far as the site has them: their channels and values are needed too. */
export function mentioned(changes: readonly SandboxChange[]): readonly string[] {
  const patterns = changes.flatMap((change) => [
    change.series,
    ...(change.kind === 'wiring' ? [change.readsAs] : []),
    ...(change.kind === 'barometer' && change.barometer !== null ? [change.barometer] : []),
  ])
  const known = (siteDocument()?.series ?? []).filter(({ made }) => !made)
  return known.filter(({ id }) => patterns.some((pattern) => isMeant(pattern, id))).map(({ id }) => id)
}

type Values = { readonly atEpochMs: Float64Array; readonly value: Float64Array }

function isSame(one: Values | undefined, other: Values | undefined): boolean {
  if (!one || !other) return one === other
  const alike = (left: Float64Array, right: Float64Array) =>
    left.length === right.length && left.every((value, at) => Object.is(value, right[at]))
  return alike(one.value, other.value) && alike(one.atEpochMs, other.atEpochMs)
}
