import { pressureHeadMetres } from './hydrostatics.ts'
import { unitWeightKnPerM3 } from './water-density.ts'

/** The liquid of a settlement cell below its reservoir at one reading. */
export interface CellReading {
  /** Of the liquid at the cell, against the air above the reservoir. */
  readonly pressureKpa: number
  /** Mean over the column, by its temperature: `waterDensity` where it is water. */
  readonly densityKgPerM3: number
  /** How far the liquid in the reservoir has dropped since the zero reading. */
  readonly reservoirDropMm: number
}

/**
 * How far a cell has risen against its reservoir since the zero reading, mm: the column above it has become shorter.
 * A drop of the liquid in the reservoir looks like a rise one to one and is taken off; so does a change of air pressure
 * in an unvented cell, which belongs into the pressure before.
 */
export function cellRiseMm(zero: CellReading, now: CellReading, gravity = 9.80665): number {
  const columnMm = ({ pressureKpa, densityKgPerM3 }: CellReading) =>
    1000 * pressureHeadMetres(pressureKpa, unitWeightKnPerM3(densityKgPerM3, gravity))
  return columnMm(zero) - columnMm(now) - (now.reservoirDropMm - zero.reservoirDropMm)
}
