import { groundMapSteps, type MapRequest } from '#domain/ground/ground-map.ts'
import { fitDrawdown } from '#domain/ground/groundwater/fit-drawdown.ts'
import { pointResidualSteps, type ResidualRequest } from '#domain/ground/point-residuals.ts'
import type { Outcome } from '#domain/outcome.ts'
import { type NetworkRequest, studyNetwork } from '#domain/radio/network-study.ts'

/** A map of the ground, points left out of one in turn, a study of a radio network, or a fit of drawdowns. */
export type DerivationTask =
  | { readonly request: MapRequest }
  | { readonly residuals: ResidualRequest }
  | { readonly network: NetworkRequest }
  | { readonly drawdown: Parameters<typeof fitDrawdown> }

/** One thing to work out, and the number its answer carries; null: what runs is no longer wanted. */
export interface DerivationMessage {
  readonly turn: number
  readonly task: DerivationTask | null
}

/** What is told of a turn: how much is done, and at its end one of the other two. */
export interface DerivationAnswer {
  readonly turn: number
  readonly share?: number
  readonly outcome?: Outcome<unknown>
  readonly failure?: string
}

interface Surroundings {
  readonly tell: (answer: DerivationAnswer) => void
  /** Lets messages that wait be heard. */
  readonly pause: () => Promise<void>
  readonly nowMs: () => number
}

/** Between two looks for a newer message: short enough that nobody waits for it, long enough to cost nothing. */
const lookEveryMs = 12
const tellEveryMs = 100

/** Takes messages; the newest wins between two steps of an older one, which then ends without an answer. */
export function runDerivations({
  tell,
  pause,
  nowMs,
}: Surroundings): (message: DerivationMessage) => Promise<void> {
  let newest = 0
  return async ({ turn, task }) => {
    newest = turn
    if (task === null) return
    let [lookedAtMs, toldAtMs] = [nowMs(), nowMs()]
    try {
      const steps =
        'request' in task
          ? groundMapSteps(task.request)
          : 'residuals' in task
            ? pointResidualSteps(task.residuals)
            : inOneStep(task)
      for (let step = steps.next(); ; step = steps.next()) {
        if (step.done) {
          tell({ turn, outcome: step.value })
          return
        }
        if (nowMs() - lookedAtMs < lookEveryMs) continue
        if (nowMs() - toldAtMs >= tellEveryMs) {
          tell({ turn, share: step.value })
          toldAtMs = nowMs()
        }
        await pause()
        if (newest !== turn) return
        lookedAtMs = nowMs()
      }
    } catch (cause) {
      tell({ turn, failure: cause instanceof Error ? cause.message : String(cause) })
    }
  }
}

/** Studies and fits take a few tenths of a second, and have no steps. */
function* inOneStep(
  task: Exclude<DerivationTask, { readonly request: MapRequest } | { readonly residuals: ResidualRequest }>,
): Generator<number, Outcome<unknown>> {
  yield 0
  return 'network' in task ? studyNetwork(task.network) : fitDrawdown(...task.drawdown)
}
