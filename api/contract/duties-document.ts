import type { Holiday, Suppression, SuppressionEnd } from '#domain/site/tables.ts'

/** `GET /api/sites/:site/duties`: who is told of alerts, at an instant and for a while on. Names, and no addresses. */
export interface DutiesDocument {
  readonly site: string
  readonly atEpochMs: number
  /** How far the roster was looked through for holes. */
  readonly coveredUntilEpochMs: number
  readonly duties: readonly DutyStanding[]
  /** From today on. */
  readonly holidays: readonly Holiday[]
  /** All on record, the newest first. */
  readonly suppressions: readonly ListedSuppression[]
  /** Ways of the roster by which nothing would arrive, a sentence each. */
  readonly nowhere: readonly string[]
}

export interface DutyStanding {
  readonly duty: string
  /** Trigger levels in force whose owner it is. */
  readonly levels: number
  readonly now: readonly PersonOn[]
  readonly week: {
    readonly fromEpochMs: number
    readonly untilEpochMs: number
    readonly turns: readonly DutyTurn[]
  }
  readonly holes: readonly TimedHole[]
  /** What happens when nothing is delivered or nobody answers. */
  readonly steps: readonly string[]
  /** False: none are written for this duty, and those told are what happens then. */
  readonly stepsWritten: boolean
}

export interface PersonOn {
  readonly order: number
  readonly name: string
  /** Empty: this person cannot be reached. */
  readonly ways: readonly ('email' | 'account' | 'webhook')[]
  readonly untilEpochMs: number
}

/** From inclusive, until exclusive; not cut to the week. */
export interface DutyTurn {
  readonly order: number
  readonly name: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

export interface TimedHole {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly because: 'nobody' | 'unreachable'
  /** Site time. */
  readonly sentence: string
}

export interface ListedSuppression extends Suppression {
  readonly ended: SuppressionEnd | null
  /** First instant at which sending went or goes on. */
  readonly untilEpochMs: number
  readonly stands: boolean
}
