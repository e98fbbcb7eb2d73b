import type { GroundMap, MapRequest } from '#domain/ground/ground-map.ts'
import type { PlainDrawdownFit, plainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { NetworkRequest, NetworkStudy } from '#domain/radio/network-study.ts'

/** The worker could not work it out: our own fault or its death, not the readings'. */
export class DerivationFailed extends Error {
  readonly code = 'derivation-failed'
}

export interface Derivation {
  /**
   * Works out a surface beside the page. Only the latest request counts: an earlier one that still runs is
   * ended and rejects with an AbortError, as one does whose signal is aborted.
   */
  surface(request: MapRequest, signal?: AbortSignal): Promise<Outcome<GroundMap>>
  /** Studies a radio network in the same way; it is as much superseded by a surface as by another study. */
  network(request: NetworkRequest, signal?: AbortSignal): Promise<Outcome<NetworkStudy>>
  /** Fits drawdowns in the same way. */
  drawdown(
    request: Parameters<typeof plainDrawdownFit>,
    signal?: AbortSignal,
  ): Promise<Outcome<PlainDrawdownFit>>
  close(): void
}

interface Answer {
  readonly turn: number
  readonly outcome?: Outcome<unknown>
  readonly failure?: string
}

type WorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>

/** Longer than this a superseded task is ended with its worker; shorter ones finish unheard. */
const patienceMs = 40

/** Opens the worker lazily; it is ended and made anew to stop a task that is no longer wanted. */
export function openDerivation(
  makeWorker: () => WorkerLike = () =>
    new Worker(new URL('./derivation-worker.ts', import.meta.url), { type: 'module' }),
): Derivation {
  let worker: WorkerLike | null = null
  let turn = 0
  let current: { turn: number; since: number; reject: (cause: unknown) => void } | null = null
  let resolveCurrent: ((outcome: Outcome<unknown>) => void) | null = null

  const settle = () => {
    current = null
    resolveCurrent = null
  }
  const abandon = (cause: unknown) => {
    if (!current) return
    const { reject, since } = current
    settle()
    if (performance.now() - since > patienceMs) {
      worker?.terminate()
      worker = null
    }
    reject(cause)
  }
  const open = (): WorkerLike => {
    if (worker) return worker
    const made = makeWorker()
    made.addEventListener('message', ((event: MessageEvent<Answer>) => {
      const { data } = event
      if (!current || data.turn !== current.turn) return
      const { reject } = current
      const resolve = resolveCurrent
      settle()
      if (data.outcome) resolve?.(data.outcome)
      else reject(new DerivationFailed(data.failure ?? 'The worker gave no answer.'))
    }) as EventListener)
    made.addEventListener('error', ((event: ErrorEvent) => {
      if (made !== worker) return
      worker = null
      const reject = current?.reject
      settle()
      reject?.(new DerivationFailed(event.message || 'The worker stopped.', { cause: event.error }))
    }) as EventListener)
    worker = made
    return made
  }

  const ask = (
    task:
      | { readonly request: MapRequest }
      | { readonly network: NetworkRequest }
      | { readonly drawdown: Parameters<typeof plainDrawdownFit> },
    signal?: AbortSignal,
  ): Promise<Outcome<unknown>> => {
    abandon(new DOMException('A later request took its place.', 'AbortError'))
    return new Promise((resolve, reject) => {
      if (signal?.aborted) {
        reject(signal.reason)
        return
      }
      turn += 1
      const mine = turn
      current = { turn: mine, since: performance.now(), reject }
      resolveCurrent = resolve
      signal?.addEventListener(
        'abort',
        () => {
          if (current?.turn === mine) abandon(signal.reason)
        },
        { once: true },
      )
      open().postMessage({ turn: mine, ...task })
    })
  }

  return {
    surface: (request, signal) => ask({ request }, signal) as Promise<Outcome<GroundMap>>,
    network: (network, signal) => ask({ network }, signal) as Promise<Outcome<NetworkStudy>>,
    drawdown: (drawdown, signal) => ask({ drawdown }, signal) as Promise<Outcome<PlainDrawdownFit>>,
    close() {
      abandon(new DOMException('Closed.', 'AbortError'))
      worker?.terminate()
      worker = null
    },
  }
}
