import { accept, type Outcome, reject } from '../outcome.ts'
import { numberText } from '../reduction/number-text.ts'
import {
  adjustedLevels,
  allowedMisclosureMm,
  isClosed,
  misclosureMetres,
  reducedLevels,
  type Setup,
} from './levelling-loop.ts'

/** A setup as the book has it: which point the staff stood on behind and ahead. */
export interface BookedSetup extends Setup {
  readonly setup: number
  readonly behind: string
  readonly ahead: string
}

/** What a level book is held to. */
export interface LevelBookTerms {
  /** Levels of benchmarks, m. */
  readonly benchmarks: ReadonlyMap<string, number>
  /** Closure allowed, mm for a line of 1 km; it grows with the root of the length. */
  readonly closureMmPerRootKm: number
  readonly share: 'setups' | 'distance'
}

/** A line of levels that closes within what is allowed, adjusted. */
export interface LevelLine {
  readonly line: string
  readonly from: string
  readonly to: string
  readonly startLevelMetres: number
  readonly endLevelMetres: number
  readonly lengthKilometres: number
  /** Positive when it came out too high. */
  readonly misclosureMm: number
  readonly allowedMm: number
  readonly levels: readonly {
    readonly setup: number
    readonly ahead: string
    readonly reducedMetres: number
    /** To 0.01 mm. */
    readonly adjustedMetres: number
    readonly standardUncertaintyMm: number
  }[]
}

/**
 * Levels of a line from one benchmark to another or back to the same one. Refused, with figures, where its setups do not
 * follow one another, it does not begin and end at benchmarks, a length is missing, or it closes worse than k · √K.
 */
export function reduceLevelLine(
  line: string,
  booked: readonly BookedSetup[],
  { benchmarks, closureMmPerRootKm, share }: LevelBookTerms,
): Outcome<LevelLine> {
  const setups = booked.toSorted((one, other) => one.setup - other.setup)
  const broken = whyBroken(setups, benchmarks)
  if (broken !== null)
    return reject({
      code: 'level-line-broken',
      value: line,
      message: `Level line ${line} cannot be worked out: ${broken} Correct the book and send it again; nothing of the line was taken.`,
    })
  const [from, to] = [setups[0]?.behind ?? '', setups.at(-1)?.ahead ?? '']
  const [start, end] = [benchmarks.get(from) ?? 0, benchmarks.get(to) ?? 0]
  const lengthKilometres = setups.reduce((sum, { distanceMetres }) => sum + (distanceMetres ?? 0), 0) / 1000
  const misclosureMm = misclosureMetres(start, setups, end) * 1000
  const allowedMm = allowedMisclosureMm(closureMmPerRootKm, lengthKilometres)
  if (!isClosed(misclosureMm, closureMmPerRootKm, lengthKilometres))
    return reject({
      code: 'level-line-open',
      value: misclosureMm.toFixed(2),
      expected: `at most ${allowedMm.toFixed(2)} mm`,
      message: `Level line ${line} from ${from} to ${to} does not close: ${signed(misclosureMm)} mm over ${setups.length} setups and ${lengthText(lengthKilometres)}, where ${allowedMm.toFixed(2)} mm are allowed (${numberText(closureMmPerRootKm)} mm/√km). Nothing of it was taken or shared out. Look for a slip in the book and correct it, or level the line again.`,
    })
  const adjusted = adjustedLevels(start, setups, share, end)
  if (!adjusted.ok) return adjusted
  const reduced = reducedLevels(start, setups)
  const shares = runningShares(setups, share)
  return accept({
    line,
    from,
    to,
    startLevelMetres: start,
    endLevelMetres: end,
    lengthKilometres,
    misclosureMm,
    allowedMm,
    levels: setups.map(({ setup, ahead }, at) => ({
      setup,
      ahead,
      reducedMetres: reduced[at] ?? Number.NaN,
      adjustedMetres: Math.round((adjusted.value[at] ?? Number.NaN) * 1e5) / 1e5,
      standardUncertaintyMm: adjustedUncertaintyMm(allowedMm, shares[at] ?? 1),
    })),
  })
}

/**
 * Standard uncertainty, mm, of an adjusted level against the benchmarks, which count as without error: that of a line held
 * at both ends, σ·√(f·(1 − f)) at the share f of it. σ, of the whole line when it hangs free, is taken as half the
 * closure allowed.
 */
export const adjustedUncertaintyMm = (allowedMm: number, share: number): number =>
  (allowedMm / 2) * Math.sqrt(Math.max(0, share * (1 - share)))

function runningShares(setups: readonly BookedSetup[], by: LevelBookTerms['share']): readonly number[] {
  const parts = setups.map(({ distanceMetres }) => (by === 'setups' ? 1 : (distanceMetres ?? 0)))
  const whole = parts.reduce((sum, part) => sum + part, 0)
  let gone = 0
  return parts.map((part) => {
    gone += part
    return gone / whole
  })
}

/** How a line closed, for its receipt and for the trail of its levels. */
export function closureSentence(line: LevelLine, { closureMmPerRootKm, share }: LevelBookTerms): string {
  const back = line.from === line.to ? 'back to it' : `to ${line.to} at ${line.endLevelMetres.toFixed(4)} m`
  return `Level line ${line.line}: from ${line.from} at ${line.startLevelMetres.toFixed(4)} m over ${line.levels.length} setups and ${lengthText(line.lengthKilometres)} ${back}, it closes to ${signed(line.misclosureMm)} mm, ${line.allowedMm.toFixed(2)} mm allowed (${numberText(closureMmPerRootKm)} mm/√km). ${line.misclosureMm === 0 ? 'Nothing was to be shared out.' : `Shared out by ${share === 'setups' ? 'setups in equal parts' : 'the distance levelled'}.`}`
}

function whyBroken(setups: readonly BookedSetup[], benchmarks: ReadonlyMap<string, number>): string | null {
  for (const [at, one] of setups.entries()) {
    const before = setups[at - 1]
    if (before?.setup === one.setup) return `setup ${one.setup} stands in it twice.`
    if (one.setup !== at + 1) return `setup ${at + 1} is missing or could not be read.`
    if (!Number.isFinite(one.backsightMetres) || !Number.isFinite(one.foresightMetres))
      return `setup ${one.setup} has no backsight or no foresight that is a number.`
    if (!(one.distanceMetres !== null && one.distanceMetres > 0))
      return `setup ${one.setup} has no length of its sights, so it cannot be told what closure is allowed.`
    if (before && before.ahead !== one.behind)
      return `setup ${one.setup} looks back at ${one.behind}, but setup ${before.setup} looked ahead to ${before.ahead}.`
  }
  const [first, last] = [setups[0], setups.at(-1)]
  if (!first || !last) return 'it has no setups.'
  if (!benchmarks.has(first.behind))
    return `it begins at ${first.behind}, which is no benchmark of its layout.`
  if (!benchmarks.has(last.ahead))
    return `it ends at ${last.ahead}, which is no benchmark of its layout: a line that hangs free cannot be checked.`
  return null
}

const signed = (millimetres: number): string =>
  `${millimetres < 0 ? '−' : '+'}${Math.abs(millimetres).toFixed(2)}`

const lengthText = (kilometres: number): string => `${numberText(Number(kilometres.toFixed(4)))} km`
