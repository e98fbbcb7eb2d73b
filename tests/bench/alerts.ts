import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  beginGroup,
  episodesInGroup,
  type GroupedLevel,
  type LevelGroup,
} from '#domain/alerts/level-group.ts'
import { settle } from '#domain/alerts/settle-group.ts'
import { takeValues } from '#domain/alerts/take-values.ts'
import { createEvaluator, type Evaluator } from '../../api/alerts/evaluator.ts'
import { createIntake, type Intake } from '../../api/intake/create-intake.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { levelFor } from '../support/level-for.ts'
import {
  benchLayout,
  benchSite,
  channelsEach,
  firstEpochMs,
  isAbove,
  loggers,
  rowOf,
  stepMs,
} from './alert-site.ts'
import { type Measurement, quantile } from './measurement.ts'

/** Simulated time passes so much faster. */
const speed = 10

/**
 * A thousand loggers of five channels, a row every five minutes of simulated time at ten times speed, each row a file
 * of its own; ten thousand levels. `minutes` of the wall clock; six are the hour that the goal is stated for.
 */
export async function measureAlerts(minutes = 6): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'bench-alerts-'))
  try {
    const peer = await deliver(join(folder, 'peer'), Math.min(1, minutes), false)
    const ours = await deliver(join(folder, 'ours'), minutes, true)
    if (ours.missed > 0 || ours.doubled > 0)
      throw new Error(`${ours.missed} alerts were missed, ${ours.doubled} were raised twice`)
    const name = `${ours.batches} batches of a thousand loggers in ${minutes} min, ${ours.raised} alerts, none missed or doubled`
    const peerName = 'the same batches taken in without evaluation'
    return [
      {
        name: `${name}: receipt to evaluated and handed on, median`,
        ours: quantile(ours.latencies, 0.5),
        unit: 'ms',
        peer: { name: peerName, value: quantile(peer.latencies, 0.5) },
        goal: 'reported',
      },
      {
        name: 'the same, 99th percentile',
        ours: quantile(ours.latencies, 0.99),
        unit: 'ms',
        peer: { name: peerName, value: quantile(peer.latencies, 0.99) },
        goal: 'under 1,000 ms',
      },
      {
        name: 'memory of the process at the end of it',
        ours: ours.endMB,
        unit: 'MB',
        peer: { name: 'a third of the way', value: ours.earlyMB },
        goal: 'flat',
      },
      measureFolding(),
    ]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

interface Delivered {
  readonly batches: number
  readonly latencies: readonly number[]
  readonly raised: number
  readonly missed: number
  readonly doubled: number
  readonly earlyMB: number
  readonly endMB: number
}

async function deliver(folder: string, minutes: number, evaluated: boolean): Promise<Delivered> {
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const signature = { author: 'bench', reason: 'bench', atEpochMs: 0 }
  const model = benchSite()
  const site = model.facts.id
  await store.putSite(model, signature)
  await store.putLayout(site, benchLayout, signature)
  await store.channelNumbers(
    site,
    model.wiring.map(({ logger, channel }) => ({ logger, name: channel })),
  )
  const begun = Date.now()
  const simulatedNow = () => firstEpochMs + (Date.now() - begun) * speed
  const intake = createIntake({
    store,
    filesFolder: join(folder, 'files'),
    presentEpochMs: () => simulatedNow() + stepMs,
  })
  const fail = (failure: unknown) => {
    throw failure
  }
  const publisher = createPublisher({
    store,
    folder: join(folder, 'slices'),
    now: simulatedNow,
    onFailure: fail,
  })
  const evaluator = createEvaluator({
    store,
    folder: join(folder, 'levels'),
    now: simulatedNow,
    onEvents: () => {},
    onFailure: (_, failure) => fail(failure),
  })
  if (evaluated) await evaluator.arrived(site)
  const run = await sendAll({ store, intake, publisher, evaluator, site, minutes, evaluated })
  const { raised, missed, doubled } = evaluated
    ? await heldAgainst(store, site, run.sent)
    : { raised: 0, missed: 0, doubled: 0 }
  await evaluator.close()
  await publisher.close()
  await store.close()
  return { ...run, raised, missed, doubled, batches: run.latencies.length }
}

async function sendAll(of: {
  readonly store: Store
  readonly intake: Intake
  readonly publisher: Publisher
  readonly evaluator: Evaluator
  readonly site: string
  readonly minutes: number
  readonly evaluated: boolean
}) {
  const latencies: number[] = []
  const sent: (readonly [logger: number, step: number])[] = []
  const open = new Set<Promise<void>>()
  const send = async (logger: number, step: number) => {
    const begun = performance.now()
    const receipt = await of.intake.takeFile({
      site: of.site,
      fileName: `logger-${logger}.csv`,
      bytes: oneChunk(new TextEncoder().encode(rowOf(logger, step))),
      from: 'bench',
      receivedAtEpochMs: firstEpochMs + step * stepMs + 1000,
    })
    if (receipt.accepted !== channelsEach) throw new Error(`${receipt.outcome}: ${receipt.message}`)
    if (of.evaluated) {
      of.publisher.changed(of.site)
      await of.evaluator.arrived(of.site)
    }
    latencies.push(performance.now() - begun)
  }
  const everyMs = stepMs / speed / loggers
  const total = Math.floor((of.minutes * 60_000) / everyMs)
  const begun = performance.now()
  let earlyMB = 0
  for (let number = 0; number < total; number++) {
    const wait = begun + number * everyMs - performance.now()
    if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait))
    const delivery = [number % loggers, Math.floor(number / loggers)] as const
    sent.push(delivery)
    const task = send(...delivery).finally(() => open.delete(task))
    open.add(task)
    if (number === Math.floor(total / 3)) earlyMB = process.memoryUsage().rss / 1e6
  }
  await Promise.all(open)
  return { latencies, sent, earlyMB, endMB: process.memoryUsage().rss / 1e6 }
}

/** Every crossing of what was sent, found by looking at each number, against what was raised. */
async function heldAgainst(store: Store, site: string, sent: readonly (readonly [number, number])[]) {
  const expected = new Set<string>()
  for (const [logger, step] of sent)
    for (let channel = 0; channel < channelsEach; channel++)
      for (const level of [1, 2])
        if (isAbove(logger, channel, step, level) && !(step > 0 && isAbove(logger, channel, step - 1, level)))
          expected.add(`${logger} ${channel} ${level} ${firstEpochMs + step * stepMs}`)
  const raised = (await store.listAlertEvents(site, 0)).flatMap(({ happening }) =>
    happening.kind === 'raised' && happening.cause.kind === 'level'
      ? [`${happening.cause.level.id} ${happening.cause.episode.crossedAtEpochMs}`]
      : [],
  )
  const known = new Set(raised)
  return {
    raised: raised.length,
    missed: [...expected].filter((one) => !known.has(one)).length,
    doubled: raised.length - known.size + [...known].filter((one) => !expected.has(one)).length,
  }
}

/** Ten thousand levels on five thousand series, of each a reading; beside it the bare comparisons. */
function measureFolding(): Measurement {
  const series = 5000
  const levelsOf = (at: number): readonly GroupedLevel[] =>
    [1, 2].map((number) => ({
      level: levelFor({
        id: `${at} ${number}`,
        level: number,
        value: 10 * number,
        holdReadings: 2,
        hysteresisShare: 0.1,
      }),
      series: at,
      against: null,
      inForce: [{ fromEpochMs: 0, untilEpochMs: null }],
    }))
  const levels = Array.from({ length: series }, (_, at) => levelsOf(at))
  let groups: readonly LevelGroup[] = levels.map(beginGroup)
  const seen = (at: number, step: number) => 12 * Math.sin((step + at) / 40)
  const times: number[] = []
  const bareTimes: number[] = []
  let found = 0
  for (let step = 1; step <= 300; step++) {
    const values = Float64Array.from({ length: series }, (_, at) => seen(at, step))
    const atEpochMs = step * stepMs
    const begun = performance.now()
    groups = groups.map((group, at) => {
      const own = levels[at] as readonly GroupedLevel[]
      const given = new Map([
        [at, [{ atEpochMs, receivedAtEpochMs: atEpochMs, value: values[at] as number }]],
      ])
      const next = settle(own, takeValues(own, group, given, atEpochMs) as LevelGroup)
      found += own.reduce((sum, _, which) => sum + episodesInGroup(next, which, atEpochMs).length, 0)
      return next
    })
    times.push(performance.now() - begun)
    const bare = performance.now()
    for (let at = 0; at < series; at++)
      for (const level of [10, 20]) if ((values[at] as number) >= level) found++
    bareTimes.push(performance.now() - bare)
  }
  if (found === 0) throw new Error('no level was reached')
  return {
    name: '10,000 levels held against a batch of 5,000 readings, folding alone, 99th percentile',
    ours: quantile(times, 0.99),
    unit: 'ms',
    peer: { name: 'a bare loop of comparisons', value: quantile(bareTimes, 0.99) },
    goal: 'under 200 ms',
  }
}

async function* oneChunk(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes
}
