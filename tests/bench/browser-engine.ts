import type { Session } from '../../web/engine/engine.ts'
import { startBrowserSession, startNativeSession } from '../contract/engine-sessions.ts'
import type { Measurement } from './measurement.ts'
import { handWrittenSql, makeReadingsSql, readingsOf, rollUpSql } from './wire-readings.ts'

const readings = readingsOf(20_000)

/** The reduction of a million raw readings in the browser's build of DuckDB, against the server's on one thread. */
export async function measureBrowserEngine(): Promise<Measurement[]> {
  const browser = await startBrowserSession()
  const server = await startNativeSession()
  try {
    await server.run('set threads = 1')
    const [ours, peer] = [await bestOf(browser), await bestOf(server)]
    if (Math.abs(ours.total / peer.total - 1) > 1e-9)
      throw new Error(`both engines must give the same: ${ours.total} and ${peer.total}`)
    return [
      {
        name: "reduction and hourly roll-up of 1 million readings in the browser's engine",
        ours: ours.seconds,
        unit: 's',
        peer: { name: "the server's DuckDB on one thread, the same query", value: peer.seconds },
        goal: 'ratio at most 4',
      },
    ]
  } finally {
    await browser.close()
    await server.close()
  }
}

async function bestOf(session: Session) {
  await session.run(makeReadingsSql(readings))
  let [seconds, total] = [Number.POSITIVE_INFINITY, Number.NaN]
  for (let round = 0; round < 3; round++) {
    const begun = performance.now()
    const answer = await session.run(rollUpSql(handWrittenSql(readings)))
    seconds = Math.min(seconds, (performance.now() - begun) / 1000)
    total = answer.number('total')[0] ?? Number.NaN
  }
  return { seconds, total }
}
