import type { Analysis } from '../ground/analysis.ts'
import { accept, type Outcome } from '../outcome.ts'
import type { SpreadingFactor } from '../site/vocabulary.ts'
import { type CoverageGrid, coverageGrid } from './coverage-grid.ts'
import { type LoggerLink, linksOfLogger } from './logger-links.ts'
import { accountOfNetwork } from './network-account.ts'
import { checkNetwork, type NetworkCheck } from './network-check.ts'
import { type NetworkModel, networkModel } from './network-model.ts'
import type { Obstruction } from './obstruction.ts'
import { type LinkProof, proofOfLink } from './proof.ts'
import type { NamedAntenna, RadioSite } from './radio-site.ts'
import type { SpotPath } from './spot-paths.ts'

export interface NetworkRequest {
  readonly site: RadioSite
  readonly atEpochMs: number
  /** Share of packets that is wanted of a link, 0 to 1. */
  readonly wantedShare: number
  readonly planned: PlannedChange
  /** Null: no grid is wanted. */
  readonly grid: { readonly spreadingFactor: SpreadingFactor; readonly gateway: string | null } | null
  /** Whether tests are left out in turn: it takes seconds. */
  readonly checked: boolean
}

/** What somebody thinks of doing. */
export interface PlannedChange {
  readonly obstruction: Obstruction | null
  /** A gateway at another place or height, by its id; one with a new id is one more. */
  readonly gateway: NamedAntenna | null
}

export interface LoggerStudy {
  readonly logger: NamedAntenna
  readonly proof: LinkProof
  /** The strongest link first. */
  readonly links: readonly LoggerLink[]
  /** The same with the planned change; null where none is planned. */
  readonly planned: readonly LoggerLink[] | null
}

export interface NetworkStudy {
  readonly model: NetworkModel
  readonly loggers: readonly LoggerStudy[]
  readonly grid: CoverageGrid | null
  readonly check: NetworkCheck | null
  readonly account: Analysis<SpotPath>
  readonly atEpochMs: number
  readonly wantedShare: number
}

/** All that the tests say of a site's radio links at an instant, and what a planned change would make of them. */
export function studyNetwork(request: NetworkRequest): Outcome<NetworkStudy> {
  const { site, atEpochMs, wantedShare, planned, grid } = request
  const found = networkModel(site, atEpochMs)
  if (!found.ok) return found
  const model = found.value
  const changed = planned.obstruction || planned.gateway ? withChange(site, planned, atEpochMs) : null
  const loggers = site.loggers.map((logger): LoggerStudy => {
    const links = linksOfLogger(logger, model, site, site, atEpochMs, wantedShare)
    const best = site.gateways.find(({ id }) => id === links[0]?.gateway)
    return {
      logger,
      proof: proofOfLink(logger, best, model.spots, site, atEpochMs),
      links,
      planned: changed && linksOfLogger(logger, model, site, changed, atEpochMs, wantedShare),
    }
  })
  const check = request.checked ? checkNetwork(model, site, wantedShare) : null
  return accept({
    model,
    loggers,
    grid: grid && coverageGrid(model, changed ?? site, { ...grid, wantedShare, atEpochMs }),
    check,
    account: accountOfNetwork(model, site, check),
    atEpochMs,
    wantedShare,
  })
}

function withChange(site: RadioSite, { obstruction, gateway }: PlannedChange, atEpochMs: number): RadioSite {
  const others = site.gateways.filter(({ id }) => id !== gateway?.id)
  return {
    ...site,
    obstructions: obstruction
      ? [...site.obstructions, { ...obstruction, fromEpochMs: atEpochMs, untilEpochMs: null }]
      : site.obstructions,
    gateways: gateway ? [...others, gateway] : site.gateways,
  }
}
