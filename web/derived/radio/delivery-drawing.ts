import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import type { CoverageGrid } from '#domain/radio/coverage-grid.ts'
import type { NetworkStudy } from '#domain/radio/network-study.ts'

type Position = [longitude: number, latitude: number]

/** Classes of predicted delivery, with the most ink where least arrives. Steps of a share, lowest first. */
export const deliveryClasses = [
  { from: 0, name: 'under 50 %', darkness: 0.62 },
  { from: 0.5, name: '50 to 80 %', darkness: 0.44 },
  { from: 0.8, name: '80 to 95 %', darkness: 0.28 },
  { from: 0.95, name: '95 to 99 %', darkness: 0.14 },
  { from: 0.99, name: '99 % and more', darkness: 0.04 },
] as const

/** Predicted delivery as the plan draws it. */
export interface DeliveryDrawing {
  readonly cells: readonly { readonly ring: readonly Position[]; readonly darkness: number }[]
  /** A stroke across each cell of which the fit cannot say on which side of the wanted share it lies. */
  readonly hatch: readonly (readonly Position[])[]
}

export function deliveryDrawing(grid: CoverageGrid, toLngLat: (point: SitePoint) => LngLat): DeliveryDrawing {
  const half = grid.cellMetres / 2
  const place = (east: number, north: number): Position => {
    const [longitude, latitude] = toLngLat([east, north])
    return [longitude, latitude]
  }
  return {
    cells: grid.cells.map(({ eastingMetres: east, northingMetres: north, delivery }) => ({
      ring: [
        place(east - half, north - half),
        place(east + half, north - half),
        place(east + half, north + half),
        place(east - half, north + half),
      ],
      darkness: darknessOf(delivery.share),
    })),
    hatch: grid.cells
      .filter(({ open }) => open)
      .map(({ eastingMetres: east, northingMetres: north }) => [
        place(east - half, north - half),
        place(east + half, north + half),
      ]),
  }
}

const darknessOf = (share: number): number =>
  deliveryClasses.findLast(({ from }) => share >= from)?.darkness ?? deliveryClasses[0].darkness

/** What the plan shows, and how far it is to be believed. */
export function deliveryNote(
  { grid, wantedShare, model, loggers }: NetworkStudy,
  spreadingFactor: number,
  gateway: string | null,
): string {
  const cells = grid?.cells ?? []
  const open = cells.filter((cell) => cell.open).length
  const percent = (share: number) => `${Math.round(100 * share)} %`
  return `Predicted share of packets at SF ${spreadingFactor} to ${gateway ?? 'the best gateway'}, from an antenna 1 m above the ground; shaded the more the less arrives. From ${model.spots.length} coverage tests. Hatched (${open} of ${cells.length} cells): the 90 % interval reaches both sides of the wanted ${percent(wantedShare)}. ${loggers.some(({ planned }) => planned !== null) ? 'What is planned counts as if it stood. ' : ''}A prediction is no proof: test where a logger will stand.`
}
