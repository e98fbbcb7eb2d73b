import { mayBeTold } from '#domain/access/may-be-told.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { seriesCatalogue } from '../slices/series-catalogue.ts'
import type { Store } from '../store/store.ts'
import type { AlertMessage, Recipient } from './delivery/delivery-way.ts'
import type { Parcel } from './gather-parcels.ts'
import type { SeriesWords } from './level-words.ts'
import type { MessageSite, ToldAlert } from './message-words.ts'
import { wordsOfMany } from './words-of-many.ts'
import { wordsOfOne } from './words-of-one.ts'

/** Unit and decimals of every series of a site. */
export function seriesWords(model: SiteModel): ReadonlyMap<string, SeriesWords> {
  const bundles = derivedBundles(model)
  return new Map(
    seriesCatalogue(model, bundles.ok ? bundles.value : []).map(({ id, unit, decimals }) => [
      id,
      { unit, decimals },
    ]),
  )
}

/** A parcel in words, from the alerts as they are now; `shown` gives one with its peak. */
export function composeMessage(
  parcel: Parcel,
  alerts: ReadonlyMap<number, Alert>,
  shown: (alert: Alert) => Alert,
  series: ReadonlyMap<string, SeriesWords>,
  site: MessageSite,
): AlertMessage {
  const told = parcel.alerts.map(({ due, alert }): ToldAlert => {
    const now = shown(alerts.get(alert.alert) ?? alert)
    return {
      alert: now,
      step: due.step,
      round: due.round,
      series: now.cause.kind === 'level' ? (series.get(now.cause.level.series) ?? null) : null,
      lowerOpen: lowerOpen(now, alerts),
    }
  })
  const [first] = told as [ToldAlert, ...ToldAlert[]]
  const words = told.length === 1 ? wordsOfOne(first, site) : wordsOfMany(told, site)
  return {
    ...words,
    id: parcel.id,
    site: parcel.site,
    siteName: site.facts.name,
    alert: told.map(({ alert }) => alert.alert).join(' '),
    exercise: parcel.kind === 'drill',
    late: told.every(({ alert }) => alert.late),
    kind: parcel.kind,
    atEpochMs: Math.min(...told.map(({ alert }) => alert.raisedAtEpochMs)),
  }
}

function lowerOpen({ cause, alert: self }: Alert, alerts: ReadonlyMap<number, Alert>): readonly Alert[] {
  if (cause.kind !== 'level') return []
  return [...alerts.values()].filter(
    (other) =>
      other.alert !== self &&
      other.closed === null &&
      other.bornOut &&
      other.cause.kind === 'level' &&
      other.cause.level.series === cause.level.series &&
      other.cause.level.level < cause.level.level,
  )
}

/**
 * Whom a parcel goes to, by the one way that it goes: the roster names accounts by their sign-in names and webhooks by
 * the names that people gave them.
 */
export async function recipientOf(
  { site, contact: id, way }: Pick<Parcel, 'site' | 'contact' | 'way'>,
  contacts: SiteModel['contacts'],
  store: Pick<Store, 'findSignIn' | 'listWebhooks'>,
): Promise<Recipient> {
  const nobody = { id, name: contacts.find((contact) => contact.id === id)?.name ?? id, email: null }
  switch (way.kind) {
    case 'email':
      return { ...nobody, email: way.to, account: null, webhooks: [] }
    case 'account': {
      const account = (await store.findSignIn(way.to.trim().toLowerCase()))?.account
      return { ...nobody, account: account && mayBeTold(account, site) ? account.id : null, webhooks: [] }
    }
    case 'webhook': {
      const named = (await store.listWebhooks(site)).filter(({ name }) => name === way.to)
      return { ...nobody, account: null, webhooks: named.map((webhook) => webhook.id) }
    }
  }
}
