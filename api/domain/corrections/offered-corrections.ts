import { groupBy } from '../group-by.ts'
import { clockAt } from '../reduction/logger-clock.ts'
import { formatInstant } from '../site/instant-text.ts'
import type { SandboxChange } from '../what-if/sandbox-change.ts'
import type { SandboxLink, SandboxRecipe } from '../what-if/sandbox-recipe.ts'
import { isMeant } from '../what-if/series-pattern.ts'
import type { CorrectionDraft, Terminal, ZeroFrom } from './correction.ts'
import { isSameChain, stepText } from './step-text.ts'
import { isSameTerminal } from './terminal.ts'

export interface OfferedCorrections {
  readonly changes: readonly CorrectionDraft[]
  /** Why a part of the sandbox cannot become a record, whole sentences; while there are any, nothing of it is offered. */
  readonly hindrances: readonly string[]
}

/**
 * What a sandbox would be as dated records. Only what the records keep with a date can be offered: a chain, a wiring, a
 * barometer and a logger's clock. A drift can be tried alone, and is told; the rest would not give what the sandbox shows.
 */
export function offeredCorrections(
  official: SandboxRecipe,
  sandbox: SandboxRecipe,
  changes: readonly SandboxChange[],
): OfferedCorrections {
  const hindrances = new Set<string>()
  const terminals = new Map(
    official.channels.map(({ channel, logger, name }) => [channel, { logger, channel: name }]),
  )
  const drafts: CorrectionDraft[] = []
  for (const link of sandbox.links) {
    const old = officialAt(official, link)
    if (!old) continue
    const own = ofLink(link, old, terminals, zeroOf(link, changes))
    if (typeof own === 'string') hindrances.add(own)
    else drafts.push(...own)
  }
  for (const { series, fromEpochMs, untilEpochMs } of unread(official, sandbox))
    hindrances.add(
      `${series} would be read by no channel from ${formatInstant(fromEpochMs)} ${untilEpochMs >= endOfTime ? 'on' : `until ${formatInstant(untilEpochMs)}`}, since the lead that it takes over is on record for no longer. This can be tried and not offered: end the change where that begins, or give it another channel from there on.`,
    )
  return { changes: [...joined(drafts), ...ofClocks(official, sandbox)], hindrances: [...hindrances] }
}

const endOfTime = Date.UTC(9999, 0, 1)

function ofLink(
  link: SandboxLink,
  old: SandboxLink,
  terminals: ReadonlyMap<number, Terminal>,
  zeroFrom: ZeroFrom | null,
): readonly CorrectionDraft[] | string {
  const { series, fromEpochMs } = link
  if ((link.barometerOffsetKpa ?? 0) !== (old.barometerOffsetKpa ?? 0))
    return `What ${link.barometerSeries} reads too little can be tried here and not offered for ${series} alone: offer a version of the calibration of ${link.barometerSeries}.`
  if ((link.growing ?? []).length > 0)
    return `A drift of ${series} can be tried and not offered: a calibration holds still between its instants. Offer an offset from an instant on.`
  const dated = {
    series,
    fromEpochMs,
    untilEpochMs: link.untilEpochMs >= endOfTime ? null : link.untilEpochMs,
  }
  const found: CorrectionDraft[] = []
  const [was, steps] = [(old.steps ?? []).map(stepText), (link.steps ?? []).map(stepText)]
  if (!isSameChain(was, steps))
    found.push({ ...dated, kind: 'calibration', was, steps, ...(zeroFrom ? { zeroFrom } : {}) })
  if (link.channel !== old.channel) {
    const [from, to] = [terminals.get(old.channel), terminals.get(link.channel)]
    if (!from || !to) return `The channel that ${series} would be read by is not on record.`
    found.push({ ...dated, kind: 'wiring', was: from, reads: to })
  }
  const { barometerSeries: barometer } = link
  if (barometer !== null && barometer !== old.barometerSeries)
    found.push({ ...dated, kind: 'barometer', was: old.barometerSeries, barometer })
  return found
}

/** Clocks of loggers that stand otherwise, each stretch for itself, by a series that the logger reads then. */
function ofClocks(official: SandboxRecipe, sandbox: SandboxRecipe): readonly CorrectionDraft[] {
  const recorded = new Map((official.clocks ?? []).map(({ logger, settings }) => [logger, settings]))
  return (sandbox.clocks ?? []).flatMap(({ logger, settings }) => {
    const was = recorded.get(logger) ?? []
    const begins = [...new Set([...was, ...settings].map(({ fromEpochMs }) => fromEpochMs))].toSorted(
      (one, other) => one - other,
    )
    return begins.flatMap((fromEpochMs, at): CorrectionDraft[] => {
      const [before, after] = [clockAt(was, fromEpochMs), clockAt(settings, fromEpochMs)]
      const series = seriesReadBy(official, logger, fromEpochMs, begins[at + 1] ?? null)
      if (JSON.stringify(before) === JSON.stringify(after) || series === null) return []
      return [
        {
          kind: 'clock',
          series,
          fromEpochMs,
          untilEpochMs: begins[at + 1] ?? null,
          logger,
          was: before,
          clock: after,
        },
      ]
    })
  })
}

function seriesReadBy(
  { channels, links }: SandboxRecipe,
  logger: string,
  fromEpochMs: number,
  untilEpochMs: number | null,
): string | null {
  const own = new Set(channels.filter((one) => one.logger === logger).map(({ channel }) => channel))
  const read = links.filter(({ channel }) => own.has(channel))
  const during = read.find(
    (link) =>
      link.fromEpochMs < (untilEpochMs ?? Number.POSITIVE_INFINITY) && fromEpochMs < link.untilEpochMs,
  )
  return (during ?? read[0])?.series ?? null
}

/**
 * The readings that the zero of a link was taken from; null: by a number alone, or something was added to its values
 * after, so that its zero is not where the readings have it.
 */
function zeroOf(link: SandboxLink, changes: readonly SandboxChange[]): ZeroFrom | null {
  const own = changes.filter(
    (one) =>
      isMeant(one.series, link.series) &&
      one.fromEpochMs <= link.fromEpochMs &&
      link.fromEpochMs < (one.untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  if (own.some(({ kind }) => kind === 'offset')) return null
  const last = own.findLast((one) => one.kind === 'zero')
  return last && last.zero.by !== 'raw' ? { zero: last.zero, reads: last.reads } : null
}

const officialAt = ({ links }: SandboxRecipe, { series, fromEpochMs }: SandboxLink) =>
  links.find(
    (one) => one.series === series && one.fromEpochMs <= fromEpochMs && fromEpochMs < one.untilEpochMs,
  )

/** Stretches in which a series is read officially and not in a sandbox, the first of each. */
function unread(official: SandboxRecipe, sandbox: SandboxRecipe) {
  const tried = groupBy(sandbox.links, ({ series }) => series)
  return [...groupBy(official.links, ({ series }) => series)].flatMap(([series, links]) => {
    for (const { fromEpochMs, untilEpochMs } of links) {
      let reached = fromEpochMs
      const own = (tried.get(series) ?? []).toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
      for (const link of own)
        if (link.fromEpochMs <= reached && link.untilEpochMs > reached) reached = link.untilEpochMs
      if (reached >= untilEpochMs) continue
      const next = own.find((link) => link.fromEpochMs > reached)?.fromEpochMs ?? untilEpochMs
      return [{ series, fromEpochMs: reached, untilEpochMs: Math.min(next, untilEpochMs) }]
    }
    return []
  })
}

/** Wirings and barometers that go on from each other as one: a calibration that begins between them changes neither. */
function joined(drafts: readonly CorrectionDraft[]): readonly CorrectionDraft[] {
  const made: CorrectionDraft[] = []
  for (const draft of drafts.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)) {
    const at = made.findIndex((one) => goesOnAs(one, draft))
    const before = made[at]
    if (before) made[at] = { ...before, untilEpochMs: draft.untilEpochMs }
    else made.push(draft)
  }
  return made
}

function goesOnAs(one: CorrectionDraft, next: CorrectionDraft): boolean {
  if (one.series !== next.series || one.untilEpochMs !== next.fromEpochMs) return false
  if (one.kind === 'wiring' && next.kind === 'wiring')
    return isSameTerminal(one.was, next.was) && isSameTerminal(one.reads, next.reads)
  return (
    one.kind === 'barometer' &&
    next.kind === 'barometer' &&
    one.was === next.was &&
    one.barometer === next.barometer
  )
}
