import type { Place } from '../geometry/straight-distance.ts'
import type { Wiring } from '../site/tables.ts'

/** What an installation is held against: as much of a site as a device keeps, or the whole of it. */
export interface KnownSite {
  readonly locations: readonly Place[]
  readonly instruments: readonly { readonly id: string }[]
  readonly points: readonly { readonly id: string }[]
  readonly loggers: readonly { readonly id: string }[]
  readonly wiring: readonly Pick<Wiring, 'logger' | 'channel' | 'sensor' | 'fromAt' | 'untilAt'>[]
  readonly strata: readonly { readonly stratum: string }[]
}
