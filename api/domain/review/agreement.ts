import { type Correlation, correlationOf } from '../statistics/correlation.ts'
import { type LagBetween, lagBetween } from '../statistics/lag-between.ts'
import { rollingDifferences } from '../statistics/rolling-differences.ts'
import { type ChangeShown, changeShown } from './change-shown.ts'
import { looksAt } from './looks.ts'
import { isBeyondChance } from './movement.ts'
import type { Neighbour, ReviewCase } from './review-case.ts'
import { showsOfMovement } from './shows-of-movement.ts'
import { changeText, dayText } from './wording.ts'

/** How a neighbour did while the series reviewed did what it did. */
export const agreementKinds = [
  'moves-with',
  'moves-otherwise',
  'still',
  'both-still',
  'silent',
  'cannot-say',
] as const
export type AgreementKind = (typeof agreementKinds)[number]

/** A neighbour held against the series reviewed, over the stretch. */
export interface Agreement {
  readonly neighbour: Neighbour
  readonly kind: AgreementKind
  /** What it did itself, in the unit of its readings, 95 %; null where nothing can be told. */
  readonly change: ChangeShown | null
  /** How much the series reviewed less it changed, 95 %, in their unit; null: another quantity, or too few readings. */
  readonly difference: ChangeShown | null
  /** Of both series' changes over `differenceSteps` steps; null where too little is there. */
  readonly correlation: Correlation | null
  /** By how many hours it comes after the series reviewed; null where no lag is told. */
  readonly lagHours:
    | (Pick<LagBetween, 'open' | 'alike'> & {
        readonly lag: number
        readonly low: number
        readonly high: number
      })
    | null
  /** Whole sentence. */
  readonly sentence: string
}

const dayMs = 86_400_000
/** Changes that belong together begin within so long of each other, as of `other-quantity`. */
const togetherMs = 21 * dayMs
/** Less than this share of the movement, at 95 %, is standing still beside it. */
const stillShare = 0.5
const silentIntervals = 8
/** Changes are looked at over a week, or over one step where steps are longer. */
const differenceMs = 7 * dayMs
const mostLagSteps = 14

/**
 * A neighbour's agreement. It moves with the series reviewed where both changed beyond chance (four standard errors), the same way
 * and within three weeks of each other; of another quantity, whose sign cannot be held against it, where both changed in the same weeks.
 * It stands still where less than half of the movement, fitted with the same form in time, is within 95 % of what it shows. Adding a
 * constant to either changes nothing. Common practice, no published source; the correlation after Pyper and Peterman (1998).
 */
export function agreementOf(reviewed: ReviewCase, neighbour: Neighbour): Agreement {
  const { subject, untilEpochMs } = reviewed
  // By hand the same quantity may be read as another measure: a dip as a level of water.
  const isByHand = reviewed.byHand.some(({ series }) => series === neighbour.series)
  const isAlike = neighbour.unit === subject.unit && (neighbour.measure === subject.measure || isByHand)
  const none = { neighbour, change: null, difference: null, correlation: null, lagHours: null }
  const last = neighbour.atEpochMs.at(-1)
  if (last === undefined)
    return { ...none, kind: 'silent', sentence: `${neighbour.point} has no reading in this stretch.` }
  const looks = looksAt(reviewed, neighbour)
  const own = looks.movement
  const { values, movement } = looks.of(neighbour)
  const stepMs = looks.grid.stepMs
  const steps = Math.max(1, Math.round(differenceMs / stepMs))
  const [ofSubject, ofNeighbour] = [
    rollingDifferences(looks.subject, steps),
    rollingDifferences(values, steps),
  ]
  const correlation = correlationOf(ofNeighbour, ofSubject)
  const lag = lagBetween(ofNeighbour, ofSubject, mostLagSteps)
  const stepHours = stepMs / 3_600_000
  const told = {
    neighbour,
    change: changeShown(values, movement, looks.uncertaintyOf(neighbour)),
    difference: isAlike ? looks.differenceShown(neighbour) : null,
    correlation,
    lagHours: lag && {
      lag: lag.lag * stepHours,
      low: lag.lagInterval[0] * stepHours,
      high: lag.lagInterval[1] * stepHours,
      open: lag.open,
      alike: lag.alike,
    },
  }
  const silentAfterMs = Math.max(dayMs, silentIntervals * neighbour.intervalMinutes * 60_000)
  if (untilEpochMs - last > silentAfterMs)
    return {
      ...told,
      kind: 'silent',
      sentence: `${neighbour.point} has given no reading since ${dayText(reviewed, last)}: what it did since is not known.`,
    }
  // Two that show no change of their own may still have parted: what is common to both hides it in each.
  const difference = isAlike ? looks.difference(neighbour) : null
  const parted = isBeyondChance(difference)
    ? ` ${subject.point} parted from it by ${changeText(difference.size, subject.unit)}, ${difference.kind === 'step' ? 'at once' : 'steadily'}.`
    : ''
  const says = (kind: AgreementKind, sentence: string): Agreement => ({
    ...told,
    kind,
    sentence: `${sentence}${parted}`,
  })
  if (own === null)
    return says(
      'cannot-say',
      `${subject.point} itself has too few readings in this stretch to be held against ${neighbour.point}.`,
    )
  if (movement === null) return says('cannot-say', `${neighbour.point} has too few readings in this stretch.`)
  // Two that are held against each other by the week may both stand still where one by the day does not.
  const seldom =
    stepMs > dayMs && neighbour.intervalMinutes > subject.intervalMinutes
      ? `Looked at as seldom as ${neighbour.point} is read, `
      : ''
  const did = changeText(movement.size, neighbour.unit)
  const moved = isBeyondChance(movement)
  if (!isBeyondChance(own))
    return moved
      ? says(
          'moves-otherwise',
          `${neighbour.point} changed by ${did} while ${subject.point} shows no change told from chance.`,
        )
      : says(
          'both-still',
          `${seldom}neither ${neighbour.point} nor ${subject.point} shows a change told from chance.`.replace(
            /^n/,
            'N',
          ),
        )
  if (moved) {
    const apartMs = Math.abs(movement.beganAtStep - own.beganAtStep) * stepMs
    if (apartMs > togetherMs)
      return says(
        'moves-otherwise',
        `${neighbour.point} changed by ${did}, but it began ${Math.round(apartMs / dayMs)} days apart.`,
      )
    if (isAlike && Math.sign(movement.size) !== Math.sign(own.size))
      return says('moves-otherwise', `${neighbour.point} changed by ${did}, the other way.`)
    return says(
      'moves-with',
      isAlike
        ? `${neighbour.point} changed with it, by ${did} beside ${changeText(own.size, subject.unit)}.`
        : `${neighbour.point} changed in the same weeks, by ${did}.`,
    )
  }
  const shown = showsOfMovement(values, own, looks.uncertaintyOf(neighbour))
  if (shown === null)
    return says('cannot-say', `${neighbour.point} has no readings on both sides of the change.`)
  const [low, high] = [shown.size - 1.96 * shown.standardError, shown.size + 1.96 * shown.standardError]
  // What is not told from chance as a movement of its own is said by how much of the movement it may hide.
  const change = { size: shown.size, low, high, steps: values.filter(Number.isFinite).length, isTold: false }
  if (!isAlike)
    return {
      ...told,
      kind: 'still',
      change,
      sentence: `${neighbour.point} shows no change told from chance; how much it would show of the other is not known.`,
    }
  const most = Math.max(Math.abs(low), Math.abs(high))
  return most < stillShare * Math.abs(own.size)
    ? {
        ...told,
        kind: 'still',
        change,
        sentence: `${neighbour.point} stood still while ${subject.point} changed by ${changeText(own.size, subject.unit)}: at most ${changeText(Math.sign(own.size) * most, neighbour.unit)} of it can hide in its scatter.`,
      }
    : {
        ...told,
        kind: 'cannot-say',
        change,
        sentence: `${neighbour.point} is too noisy to say: it may hide ${changeText(Math.sign(own.size) * most, neighbour.unit)} of ${changeText(own.size, subject.unit)}.`,
      }
}

/** Same quantity, other quantities and readings by hand that a series was held against, each by its agreement. */
export function agreementsOf(reviewed: ReviewCase): readonly Agreement[] {
  const seen = new Set<string>()
  return [...reviewed.same, ...reviewed.other, ...reviewed.byHand].flatMap((neighbour) => {
    if (seen.has(neighbour.series)) return []
    seen.add(neighbour.series)
    return [agreementOf(reviewed, neighbour)]
  })
}
