import { waitAfterAttempt } from '#domain/alerts/delivery-schedule.ts'
import { type SendingUnderWay, wayOnRecord } from '#domain/alerts/telling.ts'
import { type Way, wayText } from '#domain/roster/contact-ways.ts'
import type { NewAlertEvent } from '../store/store.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { AlertMessage, Attempt, DeliveryWay, Recipient } from './delivery/delivery-way.ts'
import type { Parcel } from './gather-parcels.ts'

export interface TellerDependencies {
  readonly ways: readonly DeliveryWay[]
  readonly now: () => number
  /** From 0 to 1; spreads repeated attempts. */
  readonly random: () => number
  /** The words of a parcel and whom they go to, as they are when it is sent. */
  readonly compose: (parcel: Parcel) => Promise<{ readonly message: AlertMessage; readonly to: Recipient }>
  /** Records what became of it. */
  readonly record: (site: string, events: readonly NewAlertEvent[]) => Promise<void>
  /** Something became of a parcel: what follows is to be decided. */
  readonly onDone: (site: string) => void
  readonly report: (line: string) => void
}

/** Sends messages, several at once, and records every attempt. Nothing waits for it. */
export interface Teller {
  send(parcels: readonly Parcel[]): void
  /** What is on its way, or was sent and could not be recorded yet: neither is to be sent again. */
  underWay(site: string): readonly SendingUnderWay[]
  lastSentAtEpochMs(site: string, contact: string, way: Way): number | null
  /** Tries again to record what could not be. */
  recordAgain(site: string): Promise<void>
  settled(): Promise<void>
  /** Stops sending; what was not recorded is sent at the next start. */
  close(): Promise<void>
}

/** So many messages are on their way at once, over all sites. */
const mostAtOnce = 8
/** Longer than any way waits by itself. */
const longestSendingMs = 60_000

export function createTeller(dependencies: TellerDependencies): Teller {
  const { now, report } = dependencies
  const closing = new AbortController()
  const waiting: Parcel[] = []
  const running = new Set<Promise<void>>()
  const onTheWay = new Map<Parcel, number>()
  const unrecorded = new Map<Parcel, readonly NewAlertEvent[]>()
  const lastSent = new Map<string, number>()
  const wayKey = (site: string, contact: string, way: Way) => JSON.stringify([site, contact, wayText(way)])

  const record = async (parcel: Parcel, events: readonly NewAlertEvent[]): Promise<void> => {
    try {
      await dependencies.record(parcel.site, events)
      unrecorded.delete(parcel)
    } catch (failure) {
      unrecorded.set(parcel, events)
      report(`${parcel.site}: an attempt was made and could not be recorded: ${wordsOfFailure(failure)}`)
    }
    onTheWay.delete(parcel)
  }

  const sendOne = async (parcel: Parcel): Promise<void> => {
    const attempt = await attemptOf(parcel, dependencies, closing.signal)
    // Cut short by us: it is sent again at the next start, under the same id.
    if (closing.signal.aborted && attempt.outcome !== 'delivered') return
    await record(parcel, eventsOf(parcel, attempt, now(), dependencies.random()))
    dependencies.onDone(parcel.site)
  }

  const startWaiting = (): void => {
    while (running.size < mostAtOnce && !closing.signal.aborted) {
      const parcel = waiting.shift()
      if (!parcel) return
      const task = sendOne(parcel).finally(() => {
        running.delete(task)
        startWaiting()
      })
      running.add(task)
    }
  }

  return {
    send(parcels) {
      const atEpochMs = now()
      for (const parcel of parcels) {
        onTheWay.set(parcel, atEpochMs)
        lastSent.set(wayKey(parcel.site, parcel.contact, parcel.way), atEpochMs)
        waiting.push(parcel)
      }
      startWaiting()
    },

    underWay: (site) =>
      [...onTheWay, ...[...unrecorded.keys()].map((parcel) => [parcel, now()] as const)]
        .filter(([parcel]) => parcel.site === site)
        .flatMap(([{ contact, way, alerts }, atEpochMs]) =>
          alerts.map(({ alert }) => ({ alert: alert.alert, contact, way, atEpochMs })),
        ),

    lastSentAtEpochMs: (site, contact, way) => lastSent.get(wayKey(site, contact, way)) ?? null,

    async recordAgain(site) {
      for (const [parcel, events] of [...unrecorded]) if (parcel.site === site) await record(parcel, events)
    },

    async settled() {
      while (running.size > 0) await Promise.allSettled(running)
    },

    async close() {
      closing.abort()
      waiting.length = 0
      await Promise.allSettled(running)
    },
  }
}

/** One outcome for all addresses of a way: somebody's devices are one person, and reached when one of them is. */
async function attemptOf(
  parcel: Parcel,
  { ways, compose, report }: TellerDependencies,
  closing: AbortSignal,
): Promise<Attempt> {
  const { way: name } = wayOnRecord(parcel.way)
  const way = ways.find((one) => one.name === name)
  if (!way) return { outcome: 'not-set-up', detail: `This server was not told how to send by ${name}.` }
  try {
    const { message, to } = await compose(parcel)
    const signal = AbortSignal.any([closing, AbortSignal.timeout(longestSendingMs)])
    return together(await way.send(message, to, signal))
  } catch (failure) {
    report(`${parcel.site}: sending by ${name} failed: ${wordsOfFailure(failure)}`)
    return { outcome: 'failed', detail: 'The server failed to send it; its report says why.', retry: true }
  }
}

function together(attempts: readonly Attempt[]): Attempt {
  const detail = attempts.map((one) => one.detail).join(' ')
  if (attempts.some(({ outcome }) => outcome === 'delivered')) return { outcome: 'delivered', detail }
  const failed = attempts.filter((one) => one.outcome === 'failed')
  if (failed.length === 0)
    return { outcome: 'not-set-up', detail: detail || 'There is no address by which this person is reached.' }
  const askedWaitMs = Math.max(0, ...failed.map((one) => one.askedWaitMs ?? 0))
  return { outcome: 'failed', detail, retry: failed.some(({ retry }) => retry), askedWaitMs }
}

function eventsOf(
  { id, contact, way, alerts }: Parcel,
  attempt: Attempt,
  atEpochMs: number,
  jitter: number,
): readonly NewAlertEvent[] {
  const { outcome, detail } = attempt
  return alerts.map(({ alert }) => {
    const before = alert.attempts.filter(
      (one) =>
        one.message === id &&
        one.recipient === contact &&
        one.way === wayOnRecord(way).way &&
        one.to === wayOnRecord(way).to,
    )
    const waitMs =
      attempt.outcome === 'failed' && attempt.retry
        ? waitAfterAttempt(before.length + 1, jitter, attempt.askedWaitMs)
        : null
    return {
      alert: alert.alert,
      atEpochMs,
      by: null,
      happening: {
        kind: 'attempted',
        message: id,
        recipient: contact,
        ...wayOnRecord(way),
        outcome,
        detail,
        retryAtEpochMs: waitMs === null ? null : atEpochMs + waitMs,
      },
    }
  })
}
