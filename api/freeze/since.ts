import type { FrozenSince } from '#contract/frozen-sets.ts'
import { groupBy } from '#domain/group-by.ts'
import { recordSince } from '#domain/meeting/record-since.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TableName } from '#domain/site/tables.ts'
import { channelClocks } from '../slices/channel-clocks.ts'
import type { KeptFrozenSet, LaterReadings } from '../store/frozen-set-verbs.ts'
import type { Store } from '../store/store.ts'

const dayMs = 86_400_000

/** What would be otherwise were a set frozen now: readings that came later, records that were written since. */
export async function findSince(
  store: Store,
  { set, mark }: KeptFrozenSet,
  mayReadAll: boolean,
  asOfEpochMs: number,
): Promise<FrozenSince> {
  const { site, cutOffEpochMs } = set
  const bound = { receivedUntilEpochMs: cutOffEpochMs, throughBatch: mark.batch }
  const model = await store.getSite(site)
  const clocks = channelClocks(model?.loggerClocks ?? [], await store.listChannels(site))
  const later = await store.listLaterReadings(site, bound, cutOffEpochMs, clocks)
  const written = await store.listLaterRecords(site, mark.auditNumber)
  const bodies = new Map<string, Readonly<Record<string, unknown>> | null>()
  for (const table of ['calibrations', 'verdicts', 'approvals'] as const)
    for (const row of model?.[table] ?? []) bodies.set(`${table} ${row.id}`, row)
  for (const { kind, key, body, before } of written)
    if (!bodies.has(`${kind} ${key}`)) bodies.set(`${kind} ${key}`, body ?? before)
  const bodyOf = (table: TableName, key: string) => bodies.get(`${table} ${key}`) ?? null
  const keys = new Set(written.map(({ kind, key }) => `${kind} ${key}`))
  const isWritten = (table: TableName, key: string) => keys.has(`${table} ${key}`)
  const told = new Set<string>()
  return {
    set: set.id,
    cutOffEpochMs,
    asOfEpochMs,
    readings: model ? bySeries(later, await wiresOf(store, site, model)) : [],
    records: written.flatMap(({ atEpochMs, author, reason, ...record }) => {
      const facts = recordSince(record, bodyOf, isWritten)
      // Steps that changed together are one correction of their calibration.
      const once = facts && JSON.stringify([atEpochMs, author, facts.name, facts.sentence])
      if (!once || told.has(once)) return []
      told.add(once)
      return [{ ...facts, atEpochMs, by: mayReadAll ? author : '', why: mayReadAll ? reason : '' }]
    }),
  }
}

type Wires = ReadonlyMap<number, SiteModel['wiring']>

async function wiresOf(store: Store, site: string, model: SiteModel): Promise<Wires> {
  const channels = await store.listChannels(site)
  const numberOf = new Map(channels.map(({ channel, logger, name }) => [`${logger}\n${name}`, channel]))
  return groupBy(model.wiring, ({ logger, channel }) => numberOf.get(`${logger}\n${channel}`) ?? 0)
}

function bySeries(later: readonly LaterReadings[], wires: Wires): FrozenSince['readings'] {
  const told = later.map((day) => {
    // Of two in one day, the one that was wired last.
    const wire = (wires.get(day.channel) ?? [])
      .filter(
        ({ fromAt, untilAt }) =>
          fromAt < day.atEpochMs + dayMs && (untilAt === null || untilAt > day.atEpochMs),
      )
      .toSorted((one, other) => other.fromAt - one.fromAt)
      .at(0)
    return { series: wire?.sensor ?? null, ...day }
  })
  return [...groupBy(told, ({ series }) => series)].map(([series, days]) => ({
    series,
    count: days.reduce((sum, { count }) => sum + count, 0),
    fromEpochMs: Math.min(...days.map(({ atEpochMs }) => atEpochMs)),
    untilEpochMs: Math.max(...days.map(({ atEpochMs }) => atEpochMs)) + dayMs,
    lastReceivedEpochMs: Math.max(...days.map(({ lastReceivedEpochMs }) => lastReceivedEpochMs)),
  }))
}
