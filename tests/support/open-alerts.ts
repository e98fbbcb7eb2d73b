import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Alerts } from '../../api/alerts/alerts.ts'
import { createAlerts } from '../../api/alerts/create-alerts.ts'
import type { AlertMessage, Attempt, DeliveryWay, Recipient } from '../../api/alerts/delivery/delivery-way.ts'
import { noEvaluation } from '../../api/alerts/levels-standing.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'
import { heldEpisode, triggerLevel } from './alert-events.ts'

/** A message that a way was asked to send. */
export interface Sent {
  readonly way: DeliveryWay['name']
  readonly to: Recipient
  readonly message: AlertMessage
  readonly atEpochMs: number
}

export interface OpenAlerts {
  readonly alerts: Alerts
  readonly store: Store
  readonly sent: readonly Sent[]
  readonly reports: readonly string[]
  readonly nowEpochMs: () => number
  /** What the ways answer from now on. */
  answer(of: (one: Sent, signal: AbortSignal) => Attempt | Promise<Attempt>): void
  /** Records that a level was reached, as evaluation does, and lets the service know. */
  raise(
    level?: Partial<TriggerLevel>,
    episode?: Partial<Episode>,
    raised?: Partial<Extract<AlertHappening, { kind: 'raised' }>>,
  ): Promise<number>
  /** Lets time pass in ticks, of 15 s as the process has them where nothing else is said. */
  passMinutes(minutes: number, tickSeconds?: number): Promise<void>
  /** The process ends, by a stop or as by a kill, and another starts on the same data. */
  restart(how?: 'stopped' | 'killed'): Promise<void>
  close(): Promise<void>
}

export const site = 'small-quay'

/** Somebody on for the monitoring day and night, a second after that, and everybody last. */
export const rosterSite = (changed: Partial<SiteModel> = {}): SiteModel => {
  const model = smallSite()
  const person = (id: string, name: string, webhooks: string | null = null) => ({
    id,
    name,
    email: `${id}@example.invalid`,
    account: null,
    webhooks,
    note: null,
  })
  const shift = (id: string, contact: string, order: number) => ({
    id,
    duty: 'Monitoring engineer',
    contact,
    order,
    zone: 'UTC',
    weekdays: 'mon-sun',
    fromTime: '00:00',
    untilTime: '00:00',
    onHolidays: 'as-usual' as const,
    validFrom: 0,
    validUntil: null,
  })
  const step = (number: number, toOrder: number | null) => ({
    duty: 'Monitoring engineer',
    step: number,
    toDuty: null,
    toOrder,
    undeliveredMinutes: 5,
    unacknowledgedMinutes: 15,
  })
  return {
    ...model,
    facts: { ...model.facts, invented: false, timeZone: 'UTC' },
    contacts: [person('ada', 'Ada Marsh', 'siren'), person('ben', 'Ben Holm'), person('cleo', 'Cleo Vane')],
    dutyShifts: [shift('first', 'ada', 1), shift('second', 'ben', 2), shift('third', 'cleo', 3)],
    escalations: [step(1, 1), step(2, 2), step(3, null)],
    ...changed,
  }
}

/** Alerts over a store of their own, with ways that send nothing and a clock that is moved by hand. */
export async function openAlerts(
  model: SiteModel = rosterSite(),
  startEpochMs: number = Date.UTC(2027, 9, 21, 2, 55),
): Promise<OpenAlerts> {
  const folder = await mkdtemp(join(tmpdir(), 'alerts-'))
  const file = join(folder, 'stillground.duckdb')
  let nowEpochMs = startEpochMs
  const now = () => nowEpochMs
  const sent: Sent[] = []
  const reports: string[] = []
  let answering: (one: Sent, signal: AbortSignal) => Attempt | Promise<Attempt> = () => ({
    outcome: 'delivered',
    detail: 'taken',
  })
  const ways = (['mail', 'webhook'] as const).map(
    (name): DeliveryWay => ({
      name,
      async send(message, to, signal) {
        const one = { way: name, to, message, atEpochMs: nowEpochMs }
        sent.push(one)
        return [await answering(one, signal)]
      },
    }),
  )
  const begin = async () => {
    const store = await openDuckdbStore({ file })
    let recorded = (_site: string) => {}
    const alerts = createAlerts({
      store,
      evaluation: (onRecorded) => {
        recorded = onRecorded
        return noEvaluation
      },
      ways,
      waysSetUp: ['mail', 'webhook'],
      now,
      random: () => 0.5,
      report: (line) => void reports.push(line),
    })
    return { store, alerts, recorded: (of: string) => recorded(of) }
  }
  let running = await begin()
  await running.store.putSite(model, { author: 'tester', reason: 'test', atEpochMs: 0 })

  return {
    get alerts() {
      return running.alerts
    },
    get store() {
      return running.store
    },
    sent,
    reports,
    nowEpochMs: now,
    answer(of) {
      answering = of
    },
    async raise(level = {}, episode = {}, raised = {}) {
      const of = triggerLevel(level)
      const reached = heldEpisode(nowEpochMs, { level: of.id, peakValue: of.value + 1, ...episode })
      const happening: AlertHappening = {
        kind: 'raised',
        cause: { kind: 'level', level: of, episode: reached },
        late: false,
        untoldBecause: null,
        ...raised,
      }
      const [stored] = await running.store.appendAlertEvents(model.facts.id, [
        { alert: null, atEpochMs: nowEpochMs, by: null, happening },
      ])
      running.recorded(model.facts.id)
      await running.alerts.settled()
      return stored?.alert ?? 0
    },
    async passMinutes(minutes, tickSeconds = 15) {
      for (let second = 0; second < minutes * 60; second += tickSeconds) {
        nowEpochMs += tickSeconds * 1000
        await running.alerts.tick()
        await running.alerts.settled()
      }
    },
    async restart(how = 'stopped') {
      // A process that was killed never hears of its messages: its store is gone under it.
      if (how === 'stopped') await running.alerts.close()
      await running.store.close()
      running = await begin()
    },
    async close() {
      await running.alerts.close()
      await running.store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
