import type { Publishing } from '#contract/publishing.ts'
import type { SliceList } from '#contract/slice-list.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { SiteFacts } from '#domain/site/site.ts'
import type { RemarkedTrail } from '../trail/find-trail.ts'

/** A document as it goes over the wire, with its entity tag. */
export interface Document {
  readonly json: string
  readonly etag: string
}

export interface PublishReport {
  readonly months: number
  readonly files: number
  readonly bytes: number
  readonly rawRows: number
}

/** Publishes what the store holds in the form that browsers read. */
export interface Publisher {
  listSites(): Promise<readonly SiteFacts[]>
  siteDocument(site: string): Promise<Document | null>
  stateDocument(site: string): Promise<Document | null>
  sliceList(site: string): Promise<SliceList | null>
  /** Path of a slice file by its public name; null when there is none. */
  sliceFile(site: string, name: string): Promise<string | null>
  trail(site: string, series: string, atEpochMs: number): Promise<Outcome<RemarkedTrail>>
  /** Publishes every month touched since the last time; `onMonth` tells how far it is. */
  publish(site: string, onMonth?: (month: string, at: number, of: number) => void): Promise<PublishReport>
  /** `GET /api/sites/:site/publishing`; null: no such site. */
  publishing(site: string): Promise<Publishing | null>
  /** Says that readings or records changed; publishing follows shortly, several changes at once. */
  changed(site: string): void
  /** Waits for publishing under way and stops. */
  close(): Promise<void>
}
