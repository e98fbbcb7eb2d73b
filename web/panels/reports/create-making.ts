import { createSignal, onCleanup } from 'solid-js'
import type { ReportManifest } from '#domain/report/report.ts'
import type { MadeReport } from '../../report/make-report.ts'
import { runReport } from '../../report/run-report.ts'
import { sentenceOf } from '../../state/ask-server.ts'

export type Making = ReturnType<typeof createMaking>

/** One report being made at a time, with what it is at, and a way to stop it. */
export function createMaking(run: typeof runReport = runReport) {
  const [at, setAt] = createSignal<{ readonly sentence: string; readonly share: number } | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  let stopping = new AbortController()
  const stop = () => stopping.abort()
  onCleanup(stop)
  /** Null: it was stopped, or failed, which is told. */
  const during = async <T>(task: (signal: AbortSignal) => Promise<T>): Promise<T | null> => {
    stop()
    stopping = new AbortController()
    const { signal } = stopping
    setTrouble(null)
    setAt({ sentence: 'Beginning …', share: 0 })
    try {
      return await task(signal)
    } catch (cause) {
      if (!signal.aborted) setTrouble(sentenceOf(cause))
      return null
    } finally {
      if (stopping.signal === signal) setAt(null)
    }
  }
  return {
    /** Null: nothing is being made. */
    at,
    trouble,
    stop,
    during,
    tell: (sentence: string, share: number) => setAt({ sentence, share }),
    make: (manifest: ReportManifest, signal: AbortSignal): Promise<MadeReport> =>
      run(manifest, { signal, onProgress: (sentence, share) => setAt({ sentence, share }) }),
  }
}
