import type { Outcome } from '../outcome.ts'
import { fitPathLoss, type PathLossFit, type WorksLoss } from './path-loss-fit.ts'
import type { SpotPath } from './spot-paths.ts'

/** How the signal of a gateway falls off; the fit of all gateways together where its own spots do not say. */
export interface GatewayFit {
  readonly gateway: string
  readonly fit: PathLossFit
  /** Why it is not the gateway's own; null where it is. */
  readonly sharedBecause: string | null
}

export interface NetworkFit {
  readonly gateways: readonly GatewayFit[]
  /** Of all spots; what a gateway without spots of its own is predicted with. */
  readonly shared: PathLossFit
}

/** A fit a gateway from the spots it heard. Refused where not even all spots together determine one. */
export function fitNetwork(
  gateways: readonly string[],
  spots: readonly SpotPath[],
  withEdges = true,
): Outcome<NetworkFit> {
  const fitOf = (some: readonly SpotPath[], worksLoss: WorksLoss | 'find' | null) =>
    fitPathLoss(
      some.flatMap(({ signalDbm, atMost, path }) =>
        signalDbm === null
          ? []
          : {
              distanceMetres: path.distanceMetres,
              clearSignalDbm: signalDbm + (withEdges ? path.lossDb : 0),
              atMost,
              inWorks: path.inWorks,
            },
      ),
      worksLoss,
    )
  const shared = fitOf(spots, 'find')
  if (!shared.ok) return shared
  return {
    ok: true,
    value: {
      shared: shared.value,
      gateways: gateways.map((gateway) => {
        const own = fitOf(
          spots.filter(({ heardBy }) => heardBy === gateway),
          shared.value.worksLoss,
        )
        return own.ok
          ? { gateway, fit: spreadAsAll(own.value, shared.value), sharedBecause: null }
          : { gateway, fit: shared.value, sharedBecause: own.issues.map(({ message }) => message).join(' ') }
      }),
    },
  }
}

export const fitOfGateway = ({ gateways, shared }: NetworkFit, gateway: string): PathLossFit =>
  gateways.find((one) => one.gateway === gateway)?.fit ?? shared

/** A dozen spots seldom meet the one that lies far off: the spread of a gateway is never taken for less than that of all. */
const spreadAsAll = (own: PathLossFit, shared: PathLossFit): PathLossFit => ({
  ...own,
  spreadDb: Math.max(own.spreadDb, shared.spreadDb),
})
