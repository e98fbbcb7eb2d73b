import { expect, test, vi } from 'vitest'
import { type ReportAnswer, runReport } from '../../../web/report/run-report.ts'
import { manifestFor } from '../../support/report-manifest.ts'

function worker() {
  const listeners = new Map<string, (event: unknown) => void>()
  const made = {
    postMessage: vi.fn(),
    terminate: vi.fn(),
    addEventListener: (name: string, listener: unknown) =>
      void listeners.set(name, listener as (event: unknown) => void),
  }
  return {
    made: made as never,
    spies: made,
    says: (data: ReportAnswer) => listeners.get('message')?.({ data }),
    dies: (message: string) => listeners.get('error')?.({ message }),
  }
}
const report = { html: new Uint8Array(1), pdf: new Uint8Array(2), pages: 3, notInFont: [] }

test('progress is told, the report comes, and its worker ends with it', async () => {
  const one = worker()
  const onProgress = vi.fn()
  const running = runReport(manifestFor(), { makeWorker: () => one.made, onProgress })
  expect(one.spies.postMessage).toHaveBeenCalledWith(manifestFor())
  one.says({ is: 'progress', sentence: 'Drawing …', share: 0.5 })
  one.says({ is: 'made', report })
  expect(await running).toBe(report)
  expect(onProgress).toHaveBeenCalledWith('Drawing …', 0.5)
  expect(one.spies.terminate).toHaveBeenCalledTimes(1)
})

test('stopping ends the worker at once; a death and a failure are sentences', async () => {
  const [one, two, three] = [worker(), worker(), worker()]
  const stopping = new AbortController()
  const stopped = runReport(manifestFor(), { makeWorker: () => one.made, signal: stopping.signal })
  stopping.abort()
  await expect(stopped).rejects.toMatchObject({ name: 'AbortError' })
  expect(one.spies.terminate).toHaveBeenCalled()
  const died = runReport(manifestFor(), { makeWorker: () => two.made })
  two.dies('out of memory')
  await expect(died).rejects.toThrow('The report could not be made: out of memory.')
  const failed = runReport(manifestFor(), { makeWorker: () => three.made })
  three.says({ is: 'failed', sentence: 'Readings of 2027-06 could not be fetched.' })
  await expect(failed).rejects.toThrow('Readings of 2027-06')
})
