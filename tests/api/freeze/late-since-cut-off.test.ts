import { afterEach, expect, test } from 'vitest'
import type { AlertsDocument } from '#contract/alerts.ts'
import { type OpenFreezing, openFreezing } from '../../support/open-freezing.ts'
import { watchedFrom, watchedSite } from '../../support/watched-site.ts'

const minuteMs = 60_000
/** A settlement is late, and a level on its silence reached, once its last reading is more than so old. */
const lateAfterMs = 60 * minuteMs

const opened: OpenFreezing[] = []
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close()
})

async function openAt(nowEpochMs: number): Promise<OpenFreezing> {
  const one = await openFreezing(watchedSite(), nowEpochMs)
  opened.push(one)
  await one.take([
    {
      sensor: 'SP-1/settlement',
      atEpochMs: watchedFrom,
      raw: 1,
      receivedMicros: BigInt(watchedFrom) * 1000n,
    },
  ])
  await one.publisher.publish(one.site)
  await one.alerts.arrived(one.site)
  await one.alerts.tick()
  await one.alerts.settled()
  return one
}

test('a series that turned late between the cut-off and freezing is not late in the set', async () => {
  const cutOffEpochMs = watchedFrom + lateAfterMs - 10_000
  const later = await openAt(cutOffEpochMs + 30_000)
  const present = (await later.alerts.document(later.site, false)) as AlertsDocument
  const unknownOf = ({ unknown }: AlertsDocument) => unknown.map(({ series }) => series)
  const frozen = await later.json<AlertsDocument>(await later.freeze(cutOffEpochMs), 'alerts')

  const then = await openAt(cutOffEpochMs)
  const expected = (await then.alerts.document(then.site, false)) as AlertsDocument
  const { crossings, unknown, watchedSeries, unreadSeries, alerts } = expected
  expect(present.unknown).toHaveLength(unknown.length + 1)
  expect(present.alerts).toHaveLength(alerts.length + 1)
  expect(frozen).toMatchObject({ crossings, unknown, watchedSeries, unreadSeries, alerts })

  // A minute later it is late by any account, and frozen so.
  later.nowEpochMs = cutOffEpochMs + minuteMs
  const next = await later.json<AlertsDocument>(await later.freeze(null), 'alerts')
  expect(unknownOf(next)).toEqual(unknownOf(present))
})
