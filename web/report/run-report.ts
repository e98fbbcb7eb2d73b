import type { ReportManifest } from '#domain/report/report.ts'
import type { MadeReport } from './make-report.ts'

export type ReportAnswer =
  | { readonly is: 'progress'; readonly sentence: string; readonly share: number }
  | { readonly is: 'made'; readonly report: MadeReport }
  | { readonly is: 'failed'; readonly sentence: string }

type WorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>

/**
 * Makes a report beside the page, in a worker with an engine of its own: the page goes on, and stopping by the signal
 * ends both at once. Rejects with a sentence for a person.
 */
export function runReport(
  manifest: ReportManifest,
  options: {
    readonly onProgress?: (sentence: string, share: number) => void
    readonly signal?: AbortSignal
    readonly makeWorker?: () => WorkerLike
  } = {},
): Promise<MadeReport> {
  const { signal, onProgress, makeWorker = newWorker } = options
  if (signal?.aborted) return Promise.reject(signal.reason)
  const worker = makeWorker()
  return new Promise<MadeReport>((resolve, reject) => {
    signal?.addEventListener('abort', () => reject(signal.reason), { once: true })
    worker.addEventListener('message', ((event: MessageEvent<ReportAnswer>) => {
      const { data } = event
      if (data.is === 'progress') onProgress?.(data.sentence, data.share)
      else if (data.is === 'made') resolve(data.report)
      else reject(new Error(data.sentence))
    }) as EventListener)
    worker.addEventListener('error', ((event: ErrorEvent) =>
      reject(
        new Error(`The report could not be made: ${event.message || 'its worker stopped'}.`),
      )) as EventListener)
    worker.postMessage(manifest)
  }).finally(() => worker.terminate())
}

const newWorker = (): WorkerLike =>
  new Worker(new URL('./report-worker.ts', import.meta.url), { type: 'module' })
