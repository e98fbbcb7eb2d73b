import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { DuckDBInstance } from '@duckdb/node-api'
import type { SiteDocument } from '#contract/site-document.ts'
import { rawColumns } from '#contract/slice-columns.ts'
import type { SliceList } from '#contract/slice-list.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { networkDocument } from '../../api/network/network-document.ts'
import { mostReadings } from '../../api/review/judge-verdict.ts'
import { judgeVerdicts } from '../../api/review/judge-verdicts.ts'
import { lookAgain } from '../../api/review/look-again.ts'
import { openPublishedSlices } from '../../api/review/published-slices.ts'
import type { ReviewSample } from '../support/review-sample.ts'
import { withVerdicts } from '../support/with-verdicts.ts'
import type { Measurement } from './measurement.ts'

const [code, series] = ['skarrow-quay', 'SP-31/settlement'] as const
const dayMs = 86_400_000
const stretchDays = 365

/**
 * How long nobody else is answered while one verdict is held against as much as one may be: the longest wait of the thread
 * that answers pages, during a whole look; the peer is the same judged on that thread itself.
 */
export async function measureVerdictAtBound(
  sample: ReviewSample,
  presentEpochMs: number,
): Promise<Measurement> {
  const file = join(tmpdir(), `bench-verdict-${process.pid}.duckdb`)
  await writeAtBound(sample.site, file, presentEpochMs)
  const verdict: Verdict = {
    ...{ id: 'V-1', series, verdict: 'doubtful', cause: 'sensor', reason: 'bench', author: 'bench' },
    ...{ fromAt: presentEpochMs - (stretchDays - 31) * dayMs, untilAt: null, alternatives: '' },
    at: presentEpochMs - 300 * dayMs,
  }
  const dependencies = withVerdicts(sample, [verdict], presentEpochMs)
  const slice = {
    resolution: 'raw' as const,
    month: '2027-08',
    url: 'at-bound',
    bytes: 0,
    rows: 0,
    sha256: '',
  }
  const list: SliceList = {
    ...{ site: code, revision: 1 },
    slices: [{ ...slice, fromEpochMs: 0, untilEpochMs: presentEpochMs }],
  }
  const publisher = {
    siteDocument: dependencies.publisher.siteDocument,
    sliceList: async () => list,
    sliceFile: async () => file,
  }
  const look = () => lookAgain({ store: dependencies.store, publisher }, code, presentEpochMs, null)
  const model = await dependencies.store.getSite(code)
  if (!model) throw new Error('the sample is not there')
  const network = await networkDocument(dependencies.store, code, model, presentEpochMs)
  const json = (await publisher.siteDocument(code))?.json ?? ''
  const here = async () => {
    const slices = await openPublishedSlices([file])
    const judged = await judgeVerdicts(JSON.parse(json), [verdict], network, presentEpochMs, slices)
    slices.close()
    if (judged.unjudged.length > 0) throw new Error(`it was not judged: ${judged.unjudged[0]?.reason}`)
  }
  try {
    const idleMs = await leastLongestWaitMs(() => new Promise((resolve) => setTimeout(resolve, 2000)))
    return {
      name: `longest wait of the server's thread while a verdict is held against ${mostReadings.toLocaleString('en-GB')} readings (${idleMs.toFixed(0)} ms while nothing is done for 2 s)`,
      ours: await leastLongestWaitMs(async () => void (await look())),
      unit: 'ms',
      peer: { name: 'the same judged on that thread', value: await leastLongestWaitMs(here) },
      goal: 'under 100',
    }
  } finally {
    await rm(file, { force: true })
  }
}

/** As many readings of the series as may be, and an hourly one of all others, in one file as slices are read. */
async function writeAtBound(site: SiteDocument, file: string, presentEpochMs: number): Promise<void> {
  const number = site.series.find(({ id }) => id === series)?.series ?? -1
  const hourly = site.series.flatMap((one) => (one.series === number ? [] : [one.series]))
  const instance = await DuckDBInstance.create(file)
  const connection = await instance.connect()
  const from = presentEpochMs - stretchDays * dayMs
  const rows = (of: string, count: number) => `
    select ${of}::integer as series, epoch_ms((${from} + row * ${stretchDays * dayMs} / ${count})::bigint) as "at",
      round(sin(6.3 * row / ${count} * ${stretchDays}) + random() + 9 * (row > ${count} / 2)::integer, 2)::double as value, 0::utinyint as quality,
      null::integer as received_after_s, 0::usmallint as flags
    from range(${count}) as of(row)`
  await connection.run('select setseed(0.5)')
  await connection.run(
    `create table value as ${rows(String(number), mostReadings)} union all
     select one as series, "at", value, quality, received_after_s, flags
     from (${rows('0', stretchDays * 24)}), unnest([${hourly.join()}]::integer[]) as others(one)`,
  )
  const columns = (await connection.runAndReadAll('from value limit 0')).columnNames()
  if (columns.join() !== Object.keys(rawColumns).join()) throw new Error('slices have other columns')
  connection.closeSync()
  instance.closeSync()
}

/** The least of three: others share the machine, and the first run makes the code warm. */
async function leastLongestWaitMs(run: () => Promise<void>): Promise<number> {
  let least = Number.POSITIVE_INFINITY
  for (let round = 0; round < 3; round++) {
    const waits = monitorEventLoopDelay({ resolution: 1 })
    waits.enable()
    await run()
    waits.disable()
    least = Math.min(least, waits.max / 1e6)
  }
  return least
}
