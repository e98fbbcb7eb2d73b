import { accept, type Outcome } from '../outcome.ts'
import { type DeliveryCurve, fitDeliveryCurve } from './delivery-curve.ts'
import { type LinkSpot, spotsOfTests } from './link-spots.ts'
import { fitNetwork, type NetworkFit } from './network-fit.ts'
import type { RadioSite } from './radio-site.ts'
import { linkMarginDb } from './receiver-sensitivity.ts'
import { type SpotPath, spotPaths } from './spot-paths.ts'

/** All that the tests made by an instant say of a network. */
export interface NetworkModel {
  readonly fit: NetworkFit
  readonly curve: DeliveryCurve
  readonly spots: readonly SpotPath[]
}

/** Fits paths and delivery to the tests made by an instant. Refused where they determine no fit. */
export function networkModel(site: RadioSite, atEpochMs: number): Outcome<NetworkModel> {
  const spots = spotPaths(spotsOfTests(site.tests, site.terms, atEpochMs), site)
  const fit = fitNetwork(
    site.gateways.map(({ id }) => id),
    spots,
  )
  if (!fit.ok) return fit
  return accept({ fit: fit.value, curve: fitDeliveryCurve(countsOf(spots, site)), spots })
}

/** Counts against the margin of the signal that was measured in the same test; spots where nothing was heard have none. */
export const countsOf = (spots: readonly LinkSpot[], { terms }: Pick<RadioSite, 'terms'>) =>
  spots.flatMap(({ signalDbm, counts }) =>
    signalDbm === null || counts.every(({ received }) => received === 0)
      ? []
      : counts.map(({ spreadingFactor, sent, received }) => ({
          marginDb: linkMarginDb(signalDbm, spreadingFactor, terms),
          sent,
          received,
        })),
  )
