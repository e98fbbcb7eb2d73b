import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import type { Issue } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { showInstant } from '#domain/site/site-readings.ts'
import type { Store } from '../store/store.ts'
import { readRecipe } from './recipe.ts'

/** Clocks of gateways and of whoever sends differ by so much: common practice, no published source. */
const ahead = "interval '60' second"

/**
 * Readings that clocks, put right, would bring to stand at or before one that was taken earlier, or after they were received:
 * the setting is wrong, or begins at the wrong stamp. The first of each clock. An issue's `column` is `changes.` and the number of the correction.
 */
export async function clockOrderIssues(given: {
  readonly store: Store
  readonly site: string
  readonly before: SiteModel
  readonly after: SiteModel
  readonly changes: readonly ProposedCorrection[]
}): Promise<readonly Issue[]> {
  const { store, site, before, after, changes } = given
  if (!changes.some(({ kind }) => kind === 'clock')) return []
  const numbers = await store.listChannels(site)
  const connection = await store.connect()
  try {
    for (const [name, model] of [
      ['order_before', before],
      ['order_after', after],
    ] as const)
      await store.exposeReadings(connection, name, {
        site,
        clocks: (await readRecipe(store, site, model)).clocks,
      })
    const issues: Issue[] = []
    for (const [number, change] of changes.entries()) {
      if (change.kind !== 'clock') continue
      const own = numbers.filter(({ logger }) => logger === change.logger)
      if (own.length === 0) continue
      const reader = await connection.runAndReadAll(`
        with sent as (
          select b.channel, b.stamp, b."at" as old_at, a."at" as new_at, b.received_at + ${ahead} as latest
          from order_before b left join order_after a on a.channel = b.channel and a.stamp = b.stamp
          where b.channel in (${own.map(({ channel }) => channel).join(', ')})
        ), placed as (
          select *, lag(old_at) over w as old_last, lag(new_at) over w as new_last from sent
          window w as (partition by channel order by stamp)
        )
        select channel, epoch_ms(stamp)::double, coalesce(new_at > latest, false) from placed
        where (old_at > old_last and (new_at is null or new_at <= new_last)) or (old_at <= latest and new_at > latest)
        order by stamp limit 1`)
      const [row] = reader.getRows()
      if (!row) continue
      const isAhead = row[2] === true
      const name = own.find(({ channel }) => channel === Number(row[0]))?.name ?? ''
      issues.push({
        code: isAhead ? 'readings-ahead-of-receipt' : 'readings-reordered',
        column: `changes.${number}`,
        value: String(change.clock.addedSeconds),
        message: `With that clock the reading of ${change.logger} ${name} stamped ${showInstant(Number(row[1]))} would stand ${
          isAhead
            ? 'after it was received. Look whether seconds are to be taken off and not added.'
            : 'at or before one that was taken earlier. Begin the change where the clock was set, or give another offset.'
        }`,
      })
    }
    return issues
  } finally {
    connection.closeSync()
  }
}
