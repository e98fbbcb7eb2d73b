import type { SpreadingFactor } from '../site/vocabulary.ts'
import { type Ground, groundLevelMetres } from './ground-level.ts'
import { fitOfGateway } from './network-fit.ts'
import type { NetworkModel } from './network-model.ts'
import { type PredictedDelivery, predictDelivery } from './predicted-delivery.ts'
import { carriedAntenna, type RadioSite, radioPath } from './radio-site.ts'
import { predictSignal } from './signal-prediction.ts'

export interface CoverageCell {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly gateway: string
  readonly delivery: PredictedDelivery
  /** True where the 90 % interval of delivery holds the wanted share: the fit cannot say on which side it lies. */
  readonly open: boolean
}

export interface CoverageGrid {
  readonly cellMetres: number
  /** Each by its middle. */
  readonly cells: readonly CoverageCell[]
}

const cellsAcross = 44
const marginMetres = 25

/**
 * Predicted delivery at one spreading factor over the site, at an antenna carried 1 m above the ground there, to the gateway
 * named, or to the one that delivers most. Reaches 25 m beyond loggers, gateways and tests: farther out nothing was measured.
 */
export function coverageGrid(
  model: NetworkModel,
  site: RadioSite,
  options: {
    readonly spreadingFactor: SpreadingFactor
    /** Null: the best of all. */
    readonly gateway: string | null
    readonly wantedShare: number
    readonly atEpochMs: number
  },
): CoverageGrid {
  const places = [...site.gateways, ...site.loggers, ...model.spots]
  const gateways = site.gateways.filter(({ id }) => options.gateway === null || id === options.gateway)
  if (places.length === 0 || gateways.length === 0) return { cellMetres: 1, cells: [] }
  const easts = places.map(({ eastingMetres }) => eastingMetres)
  const norths = places.map(({ northingMetres }) => northingMetres)
  const [west, south] = [Math.min(...easts) - marginMetres, Math.min(...norths) - marginMetres]
  const [width, height] = [
    Math.max(...easts) + marginMetres - west,
    Math.max(...norths) + marginMetres - south,
  ]
  const cellMetres = Math.max(2, Math.ceil(Math.max(width, height) / cellsAcross))
  const ground = sampledGround(site.ground, [west, south], [width, height], options.atEpochMs)
  const sampled = { ...site, ground }
  const cells: CoverageCell[] = []
  for (let north = south + cellMetres / 2; north < south + height; north += cellMetres)
    for (let east = west + cellMetres / 2; east < west + width; east += cellMetres) {
      const antenna = carriedAntenna([east, north], site, options.atEpochMs)
      const best = gateways
        .map((gateway) => {
          const path = radioPath(antenna, gateway, sampled, options.atEpochMs)
          const signal = predictSignal(fitOfGateway(model.fit, gateway.id), path)
          const { spreadingFactor, wantedShare } = options
          return {
            gateway: gateway.id,
            delivery: predictDelivery(signal, spreadingFactor, model.curve, site.terms, wantedShare),
          }
        })
        .reduce((most, one) => (one.delivery.share > most.delivery.share ? one : most))
      const { low, high } = best.delivery.interval
      const open = low < options.wantedShare && high >= options.wantedShare
      cells.push({ eastingMetres: east, northingMetres: north, ...best, open })
    }
  return { cellMetres, cells }
}

/** Levelled places on a coarse lattice stand for all of them: paths ask for the ground thousands of times. */
function sampledGround(
  ground: Ground,
  [west, south]: readonly [number, number],
  [width, height]: readonly [number, number],
  atEpochMs: number,
): Ground {
  const bare = { ...ground, pits: [] }
  const step = Math.max(width, height) / 6
  const places = []
  for (let north = south; north <= south + height + step / 2; north += step)
    for (let east = west; east <= west + width + step / 2; east += step)
      places.push({
        eastingMetres: east,
        northingMetres: north,
        levelMetres: groundLevelMetres(bare, [east, north], atEpochMs),
      })
  return { places: ground.places.length < places.length ? ground.places : places, pits: ground.pits }
}
