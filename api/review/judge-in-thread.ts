import { parentPort, workerData } from 'node:worker_threads'
import type { SiteDocument } from '#contract/site-document.ts'
import type { ToJudge } from './judge-beside.ts'
import { judgeVerdicts } from './judge-verdicts.ts'
import { openPublishedSlices } from './published-slices.ts'

const { site, verdicts, network, asOfEpochMs, files } = workerData as ToJudge
const slices = await openPublishedSlices(files)
try {
  const parsed = JSON.parse(site) as SiteDocument
  parentPort?.postMessage(await judgeVerdicts(parsed, verdicts, network, asOfEpochMs, slices))
} finally {
  slices.close()
}
