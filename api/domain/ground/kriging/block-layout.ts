import type { Lattice } from './krige-lattice.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** Columns and rows of a block, the last of each not in it. */
export interface BlockExtent {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** How a lattice is laid out in blocks of nodes, row by row of blocks from the south-west. */
export interface BlockLayout {
  readonly lattice: Lattice
  readonly count: number
  /** Nodes of a whole block, eastwards and northwards. */
  readonly wide: number
  readonly tall: number
  /** Blocks in a row of them. */
  readonly across: number
  readonly up: number
  /** Of a column or row, from the system's origin; those outside the lattice too. */
  eastOf(column: number): number
  northOf(row: number): number
  extentOf(index: number): BlockExtent
  middleOf(index: number): readonly [column: number, row: number]
}

/** Fewer points than this are solved directly as fast. */
const fewPoints = 60

/** Blocks about as wide as points lie apart (`widthShare` of it); null where they would save nothing. */
export function layBlocks(system: KrigingSystem, lattice: Lattice, widthShare: number): BlockLayout | null {
  const { columns, rows, eastStepMetres, northStepMetres } = lattice
  const spacing = widthShare * spacingOf(system)
  const wide = Math.min(32, Math.floor(spacing / eastStepMetres))
  const tall = Math.min(32, Math.floor(spacing / northStepMetres))
  if (system.points.length < fewPoints || wide * tall < 16 || columns < wide || rows < tall) return null
  const across = Math.ceil(columns / wide)
  const up = Math.ceil(rows / tall)
  const extentOf = (index: number): BlockExtent => {
    const left = (index % across) * wide
    const low = Math.floor(index / across) * tall
    return { left, right: Math.min(left + wide, columns), low, high: Math.min(low + tall, rows) }
  }
  return {
    lattice,
    count: across * up,
    wide,
    tall,
    across,
    up,
    eastOf: (column) => lattice.east + column * eastStepMetres,
    northOf: (row) => lattice.north + row * northStepMetres,
    extentOf,
    middleOf(index) {
      const { left, right, low, high } = extentOf(index)
      return [Math.min(right - 1, left + (wide >> 1)), Math.min(high - 1, low + (tall >> 1))]
    },
  }
}

/** Side of the square that a point has to itself, metres, from the box around the points. */
function spacingOf({ points }: KrigingSystem): number {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const point of points) {
    west = Math.min(west, point.east)
    east = Math.max(east, point.east)
    south = Math.min(south, point.north)
    north = Math.max(north, point.north)
  }
  return Math.sqrt(((east - west) * (north - south)) / points.length)
}
