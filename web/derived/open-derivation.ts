import type { GroundMap, MapRequest } from '#domain/ground/ground-map.ts'
import type { DrawdownFit, fitDrawdown } from '#domain/ground/groundwater/fit-drawdown.ts'
import type { PointResiduals, ResidualRequest } from '#domain/ground/point-residuals.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { NetworkRequest, NetworkStudy } from '#domain/radio/network-study.ts'
import type { DerivationAnswer, DerivationMessage, DerivationTask } from './run-derivations.ts'

/** The worker could not work it out: our own fault or its death, not the readings'. */
export class DerivationFailed extends Error {
  readonly code = 'derivation-failed'
}

export interface Derivation {
  /**
   * Works out a surface beside the page. Only the latest request counts: an earlier one that still runs stops
   * between two of its steps and rejects with an AbortError, as one does whose signal is aborted. `progress` is told the
   * share done, some times a second.
   */
  surface(request: MapRequest, watch?: Watch): Promise<Outcome<GroundMap>>
  /** Leaves each point out of a surface in turn, in the same way. */
  residuals(request: ResidualRequest, watch?: Watch): Promise<Outcome<PointResiduals>>
  /** Studies a radio network in the same way; it is as much superseded by a surface as by another study. */
  network(request: NetworkRequest, watch?: Watch): Promise<Outcome<NetworkStudy>>
  /** Fits drawdowns in the same way. */
  drawdown(request: Parameters<typeof fitDrawdown>, watch?: Watch): Promise<Outcome<DrawdownFit>>
  close(): void
}

interface Watch {
  readonly signal?: AbortSignal
  readonly progress?: (share: number) => void
}

type WorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>

interface Running {
  readonly turn: number
  readonly task: DerivationTask
  readonly progress: ((share: number) => void) | undefined
  resolve(outcome: Outcome<unknown>): void
  reject(cause: unknown): void
}

/** A worker that was sent something newer and then says nothing for so long hangs in one step: it is ended. */
const hungAfterMs = 2000

/** Opens the worker lazily; it is ended and made anew only where it hangs, or dies. */
export function openDerivation(
  makeWorker: () => WorkerLike = () =>
    new Worker(new URL('./derivation-worker.ts', import.meta.url), { type: 'module' }),
): Derivation {
  let worker: WorkerLike | null = null
  let turn = 0
  let running: Running | null = null
  let heard = 0
  /** Something was given up, and the worker has said nothing since. */
  let isUnheard = false
  let lookAgain: ReturnType<typeof setTimeout> | undefined

  const settle = (): Running | null => {
    const one = running
    running = null
    return one
  }
  const hear = ({ data }: MessageEvent<DerivationAnswer>) => {
    heard += 1
    isUnheard = false
    if (!running || data.turn !== running.turn) return
    if (data.outcome) settle()?.resolve(data.outcome)
    else if (data.share !== undefined) running.progress?.(data.share)
    else settle()?.reject(new DerivationFailed(data.failure ?? 'The worker gave no answer.'))
  }
  const open = (): WorkerLike => {
    if (worker) return worker
    const made = makeWorker()
    made.addEventListener('message', ((event: MessageEvent<DerivationAnswer>) => {
      if (made === worker) hear(event)
    }) as EventListener)
    made.addEventListener('error', ((event: ErrorEvent) => {
      if (made !== worker) return
      worker = null
      settle()?.reject(new DerivationFailed(event.message || 'The worker stopped.', { cause: event.error }))
    }) as EventListener)
    worker = made
    return made
  }
  const send = (message: DerivationMessage) => open().postMessage(message)
  /** After something newer was sent while something ran. */
  const endIfHung = () => {
    clearTimeout(lookAgain)
    const heardBefore = heard
    lookAgain = setTimeout(() => {
      if (heard !== heardBefore || !running) return
      worker?.terminate()
      worker = null
      send({ turn: running.turn, task: running.task })
    }, hungAfterMs)
  }
  const abandon = (cause: unknown, next: DerivationTask | null) => {
    const before = settle()
    if (!before) return
    isUnheard = true
    if (next === null) send({ turn: ++turn, task: null })
    before.reject(cause)
  }

  const ask = (task: DerivationTask, { signal, progress }: Watch = {}): Promise<Outcome<unknown>> => {
    if (signal?.aborted) return Promise.reject(signal.reason)
    abandon(new DOMException('A later request took its place.', 'AbortError'), task)
    return new Promise((resolve, reject) => {
      const mine = ++turn
      running = { turn: mine, task, progress, resolve, reject }
      signal?.addEventListener(
        'abort',
        () => {
          if (running?.turn === mine) abandon(signal.reason, null)
        },
        { once: true },
      )
      send({ turn: mine, task })
      if (isUnheard) endIfHung()
    })
  }

  return {
    surface: (request, watch) => ask({ request }, watch) as Promise<Outcome<GroundMap>>,
    residuals: (residuals, watch) => ask({ residuals }, watch) as Promise<Outcome<PointResiduals>>,
    network: (network, watch) => ask({ network }, watch) as Promise<Outcome<NetworkStudy>>,
    drawdown: (drawdown, watch) => ask({ drawdown }, watch) as Promise<Outcome<DrawdownFit>>,
    close() {
      clearTimeout(lookAgain)
      settle()?.reject(new DOMException('Closed.', 'AbortError'))
      worker?.terminate()
      worker = null
    },
  }
}
