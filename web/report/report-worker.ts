import type { ReportManifest } from '#domain/report/report.ts'
import { openEngine } from '../engine/open-engine.ts'
import { askServer, ServerRefused, sentenceOf } from '../state/ask-server.ts'
import { makeReport } from './make-report.ts'
import { openSources } from './open-sources.ts'
import type { ReportAnswer } from './run-report.ts'
import { writeReport } from './write-report.ts'

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<ReportManifest>) => void) | null
  postMessage(message: ReportAnswer, transfer?: Transferable[]): void
}

// One manifest a worker: whoever wants to stop ends the worker, and the engine in it goes as well.
scope.onmessage = ({ data }) => void work(data)

async function work(manifest: ReportManifest): Promise<void> {
  const engine = openEngine()
  try {
    scope.postMessage({ is: 'progress', sentence: 'Fetching the frozen data …', share: 0 })
    const sources = await openSources(manifest, { get: askServer, optional }, engine, {
      onProgress: (sentence, share) => scope.postMessage({ is: 'progress', sentence, share }),
    })
    const { html, pdf, pages, notInFont } = await makeReport(sources, writeReport)
    scope.postMessage({ is: 'made', report: { html, pdf, pages, notInFont } }, [
      html.buffer as ArrayBuffer,
      pdf.buffer as ArrayBuffer,
    ])
  } catch (cause) {
    scope.postMessage({ is: 'failed', sentence: sentenceOf(cause) })
  } finally {
    await engine.close().catch(() => undefined)
  }
}

/** A document that this server, or this reader, does not have. */
async function optional<T>(path: string): Promise<T | null> {
  try {
    return await askServer<T>(path)
  } catch (cause) {
    if (cause instanceof ServerRefused && [403, 404].includes(cause.problem.status)) return null
    throw cause
  }
}
