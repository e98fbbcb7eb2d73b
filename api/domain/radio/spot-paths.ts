import { freeSpaceLossDb } from './free-space.ts'
import type { LinkSpot } from './link-spots.ts'
import type { Antenna } from './path-edges.ts'
import { carriedAntenna, type RadioPath, type RadioSite, radioPath } from './radio-site.ts'

/** A spot with the gateway that heard it and the path there as it was at the time of the test. */
export interface SpotPath extends LinkSpot {
  readonly heardBy: string
  /** False: the test does not say, and the gateway with the least loss over the path was taken. */
  readonly gatewayStated: boolean
  readonly path: RadioPath
}

/** Ties each spot to a gateway; one whose gateway is not of the site any more is left out. */
export function spotPaths(spots: readonly LinkSpot[], site: RadioSite): readonly SpotPath[] {
  return spots.flatMap((spot) => {
    const logger = site.loggers.find((one) => one.id === spot.logger && standsAtSpot(one, spot))
    const antenna = logger ?? carriedAntenna([spot.eastingMetres, spot.northingMetres], site, spot.atEpochMs)
    const ways = site.gateways
      .filter(({ id }) => spot.gateway === null || id === spot.gateway)
      .map((gateway) => ({ id: gateway.id, path: radioPath(antenna, gateway, site, spot.atEpochMs) }))
      .toSorted((one, other) => lossOf(one.path, site) - lossOf(other.path, site))
    const [best] = ways
    return best ? { ...spot, heardBy: best.id, gatewayStated: spot.gateway !== null, path: best.path } : []
  })
}

/** A test of a logger may have been made elsewhere, before it was put where it is. */
const standsAtSpot = (logger: Antenna, spot: LinkSpot) =>
  Math.hypot(logger.eastingMetres - spot.eastingMetres, logger.northingMetres - spot.northingMetres) <=
  samePlaceMetres

const samePlaceMetres = 10

const lossOf = ({ distanceMetres, lossDb }: RadioPath, { terms }: RadioSite) =>
  freeSpaceLossDb(Math.max(1, distanceMetres), terms.frequencyMHz) + lossDb
