import type { SiteGrid, SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Works } from '../../site/site.ts'
import type { AquiferRow, PumpingRateRow, WellRow } from '../../site/tables.ts'
import type { Aquifer } from './drawdown.ts'
import type { PumpedWell, WaterBoundary } from './wells-and-images.ts'

export interface PumpingRecords {
  readonly works: Works
  readonly aquifers: readonly AquiferRow[]
  readonly wells: readonly WellRow[]
  readonly pumpingRates: readonly PumpingRateRow[]
}

/** Pumping of one layer as it is recorded; times in days since its first rate, rates in m³ a day. */
export interface PumpingOfStratum {
  /** As designed, m² a day. */
  readonly aquifer: Aquifer
  readonly wells: readonly PumpedWell[]
  readonly boundary: WaterBoundary | null
  readonly startEpochMs: number
  /** Where the figures come from, and what the boundary is: whole sentences. */
  readonly sentences: readonly string[]
}

const dayMs = 86_400_000
/** Litres a second to m³ a day. */
const dailyCubicMetres = 86.4

/** What is recorded of the wells of a layer. Refused in words where a figure that Theis needs is not in the records. */
export function pumpingOfStratum(
  records: PumpingRecords,
  stratum: string,
  grid: SiteGrid,
): Outcome<PumpingOfStratum> {
  const stated = records.aquifers.find((one) => one.stratum === stratum)
  if (!stated)
    return refuse(
      'aquifer-not-stated',
      `aquifers.csv states no transmissivity and storativity of ${stratum}, so no drawdown is computed. Add a row for it.`,
    )
  const ratesOf = (well: string) => records.pumpingRates.filter((rate) => rate.well === well)
  const pumped = records.wells.filter((well) => well.stratum === stratum && ratesOf(well.id).length > 0)
  if (pumped.length === 0)
    return refuse(
      'wells-not-stated',
      `No well of ${stratum} has a rate in pumping-rates.csv, so no drawdown is computed. Add its wells and their rates.`,
    )
  const boundary = boundaryOf(stated, records.works, grid)
  if (!boundary.ok) return boundary
  const startEpochMs = Math.min(...pumped.flatMap(({ id }) => ratesOf(id).map(({ fromAt }) => fromAt)))
  return accept({
    aquifer: {
      transmissivity: (stated.transmissivityM2PerS * dayMs) / 1000,
      storativity: stated.storativity,
    },
    wells: pumped.map(({ id, eastingMetres, northingMetres, radiusMetres }) => ({
      id,
      eastingMetres,
      northingMetres,
      radiusMetres,
      rates: ratesOf(id).map(({ fromAt, rateLitresPerSecond }) => ({
        from: (fromAt - startEpochMs) / dayMs,
        ratePerTime: rateLitresPerSecond * dailyCubicMetres,
      })),
    })),
    boundary: boundary.value,
    startEpochMs,
    sentences: [
      `Transmissivity and storativity of ${stratum}: ${stated.source} (${stated.author}).`,
      ...pumped.flatMap(({ id, note }) => (note === null ? [] : [`${id}: ${note}.`])),
      ...(boundary.value
        ? [`Boundary: ${nameOf(records.works, stated.boundaryLine)}, taken as straight and without end.`]
        : []),
    ],
  })
}

/** A line that bends by more is no straight boundary. */
const straightWithinMetres = 1

function boundaryOf(
  { boundaryLine, boundaryKind }: AquiferRow,
  works: Works,
  grid: SiteGrid,
): Outcome<WaterBoundary | null> {
  if (boundaryLine === null || boundaryKind === null) return accept(null)
  const drawn = works.features.find(({ properties }) => properties.id === boundaryLine)?.geometry
  const line = (drawn?.type === 'LineString' ? drawn.coordinates : []).map(
    (place): SitePoint => grid.toGrid([place[0] ?? 0, place[1] ?? 0]),
  )
  const [from, to] = [line[0], line.at(-1)]
  if (!from || !to || Math.hypot(to[0] - from[0], to[1] - from[1]) === 0)
    return refuse(
      'boundary-unfit',
      `The boundary "${boundaryLine}" is no line of works.geojson with two ends apart. Draw it, or name another.`,
    )
  const away = Math.max(...line.map((place) => distanceFrom(from, to, place)))
  if (away > straightWithinMetres)
    return refuse(
      'boundary-bent',
      `The boundary "${boundaryLine}" bends by ${away.toFixed(1)} m, but an image well stands for a straight one only. Draw the straight piece that matters as a line of its own.`,
    )
  return accept({ kind: boundaryKind === 'held-level' ? 'held level' : 'no flow', from, to })
}

const distanceFrom = (from: SitePoint, to: SitePoint, [e, n]: SitePoint): number =>
  Math.abs((to[0] - from[0]) * (n - from[1]) - (to[1] - from[1]) * (e - from[0])) /
  Math.hypot(to[0] - from[0], to[1] - from[1])

const nameOf = (works: Works, id: string | null): string =>
  works.features.find(({ properties }) => properties.id === id)?.properties.name ?? id ?? ''

const refuse = (code: string, message: string) => reject({ code, message })
