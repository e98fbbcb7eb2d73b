import { Worker } from 'node:worker_threads'
import type { KnownNetwork } from '#domain/review/case/reviewed-site.ts'
import type { Verdict } from '#domain/site/tables.ts'
import type { JudgedVerdicts } from './judge-verdicts.ts'

/** What verdicts are held against, as it is handed to another thread. */
export interface ToJudge {
  /** The site document as it is sent: whoever judges reads it, not whoever answers pages. */
  readonly site: string
  readonly verdicts: readonly Verdict[]
  readonly network: KnownNetwork
  readonly asOfEpochMs: number
  /** Raw slices. */
  readonly files: readonly string[]
}

/**
 * `judgeVerdicts` on a thread of its own, so that pages are answered and readings taken in meanwhile however long a stretch
 * is. The thread lives as long as the look: what it needed goes with it.
 */
export function judgeBeside(toJudge: ToJudge): Promise<JudgedVerdicts> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./judging-thread.mjs', import.meta.url), { workerData: toJudge })
    thread.once('message', resolve)
    thread.once('error', reject)
    // After an answer or a failure this says nothing new.
    thread.once('exit', (code) => reject(new Error(`The thread that judges ended early, with ${code}.`)))
  })
}
