import type { VerdictEvidence } from '../site/tables.ts'
import type { VerdictCause } from '../site/verdict-words.ts'
import type { VerdictKind } from '../site/vocabulary.ts'
import type { EvidenceFigure } from './evidence.ts'

/** A verdict as it is held against what is known now. */
export interface VerdictToJudge {
  readonly verdict: VerdictKind
  /** Null: from before verdicts named one. */
  readonly cause: VerdictCause | null
  readonly fromEpochMs: number
  /** Null: it lasts. */
  readonly untilEpochMs: number | null
  readonly foundAtEpochMs: number
  /** As it stood when it was found; empty: none was kept. */
  readonly evidence: readonly Pick<VerdictEvidence, 'cause' | 'rule' | 'decibans'>[]
}

/** Something in the data now that speaks against a verdict. */
export interface Contradiction {
  readonly kind: 'overtaken' | 'borne-out' | 'change-stays' | 'agrees-again'
  readonly sentence: string
  readonly figure: EvidenceFigure
}
