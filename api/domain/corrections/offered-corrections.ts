import { changeSentence } from '../what-if/change-sentence.ts'
import type { SandboxChange } from '../what-if/sandbox-change.ts'
import type { SandboxLink, SandboxRecipe } from '../what-if/sandbox-recipe.ts'
import type { CorrectionDraft, Terminal } from './correction.ts'
import { isSameTerminal } from './resolve-corrections.ts'
import { isSameChain, stepText } from './step-text.ts'

export interface OfferedCorrections {
  readonly changes: readonly CorrectionDraft[]
  /** Why a part of the sandbox cannot become a record, whole sentences; while there are any, nothing of it is offered. */
  readonly hindrances: readonly string[]
}

/**
 * What a sandbox would be as dated records. Only what the records keep with a date can be offered: a chain and a wiring. Another
 * clock, a drift, another barometer can be tried alone, and are told; the rest would not give what the sandbox shows.
 */
export function offeredCorrections(
  official: SandboxRecipe,
  sandbox: SandboxRecipe,
  changes: readonly SandboxChange[],
): OfferedCorrections {
  const hindrances = new Set<string>()
  for (const change of changes)
    if (change.kind === 'clock')
      hindrances.add(
        `${changeSentence(change)} This can be tried and not offered: the record keeps no corrections of clocks, and stamps of readings are never rewritten.`,
      )
  const terminals = new Map(
    official.channels.map(({ channel, logger, name }) => [channel, { logger, channel: name }]),
  )
  const drafts: CorrectionDraft[] = []
  for (const link of sandbox.links) {
    const old = officialAt(official, link)
    if (!old) continue
    const own = ofLink(link, old, terminals)
    if (typeof own === 'string') hindrances.add(own)
    else drafts.push(...own)
  }
  for (const [series, lengthMs] of lengths(official))
    if ((lengths(sandbox).get(series) ?? 0) < lengthMs)
      hindrances.add(
        `${series} would be read by no channel for some of the time. This can be tried and not offered.`,
      )
  return { changes: joined(drafts), hindrances: [...hindrances] }
}

const endOfTime = Date.UTC(9999, 0, 1)

function ofLink(
  link: SandboxLink,
  old: SandboxLink,
  terminals: ReadonlyMap<number, Terminal>,
): readonly CorrectionDraft[] | string {
  const { series, fromEpochMs } = link
  if (link.barometerSeries !== old.barometerSeries)
    return `${series} corrected by ${link.barometerSeries ?? 'no barometer'} can be tried and not offered: which barometer a sensor takes is kept without a date. Its share and its reference can be offered.`
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
  if (!isSameChain(was, steps)) found.push({ ...dated, kind: 'calibration', was, steps })
  if (link.channel !== old.channel) {
    const [from, to] = [terminals.get(old.channel), terminals.get(link.channel)]
    if (!from || !to) return `The channel that ${series} would be read by is not on record.`
    found.push({ ...dated, kind: 'wiring', was: from, reads: to })
  }
  return found
}

const officialAt = ({ links }: SandboxRecipe, { series, fromEpochMs }: SandboxLink) =>
  links.find(
    (one) => one.series === series && one.fromEpochMs <= fromEpochMs && fromEpochMs < one.untilEpochMs,
  )

function lengths({ links }: SandboxRecipe): ReadonlyMap<string, number> {
  const found = new Map<string, number>()
  for (const { series, fromEpochMs, untilEpochMs } of links)
    found.set(series, (found.get(series) ?? 0) + untilEpochMs - fromEpochMs)
  return found
}

/** Wirings that go on from each other as one: a calibration that begins between them cuts no lead. */
function joined(drafts: readonly CorrectionDraft[]): readonly CorrectionDraft[] {
  const made: CorrectionDraft[] = []
  for (const draft of drafts.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)) {
    const at = made.findIndex(
      (one) =>
        one.kind === 'wiring' &&
        draft.kind === 'wiring' &&
        one.series === draft.series &&
        one.untilEpochMs === draft.fromEpochMs &&
        isSameTerminal(one.was, draft.was) &&
        isSameTerminal(one.reads, draft.reads),
    )
    const before = made[at]
    if (before) made[at] = { ...before, untilEpochMs: draft.untilEpochMs }
    else made.push(draft)
  }
  return made
}
