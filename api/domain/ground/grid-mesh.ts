import { type CutMesh, clipTriangle } from './clip-triangle.ts'
import type { SurfaceMesh } from './settlement-surface.ts'
import type { ValueGrid } from './value-grid.ts'

/**
 * The squares of a grid, each cut into two triangles along its rising diagonal, as the mesh that contours, bands and
 * volumes are taken from. Where the grid tells how far its nodes lie inside what is shown, triangles are cut there
 * along a straight line; else a triangle is shown with all its nodes or left out.
 */
export function gridMesh(grid: ValueGrid): SurfaceMesh {
  const { origin, cellMetres, columns, rows, values } = grid
  const nodes = values.length
  const inward = inwardOf(grid)
  const { halves, drawn, cut } = drawnHalves(grid, inward)
  // A triangle that is cut leaves two at most, with two nodes of its own.
  const pieces: CutMesh = {
    east: new Float64Array(nodes + 2 * cut),
    north: new Float64Array(nodes + 2 * cut),
    values: new Float64Array(nodes + 2 * cut),
    triangles: new Uint32Array(3 * (drawn + cut)),
    sides: new Uint32Array(3 * (drawn + cut)),
    rim: [],
    crossings: new Map(),
    nodeCount: nodes,
    cornerCount: 0,
    sideCount: 3 * nodes,
  }
  pieces.values.set(values)
  for (let row = 0, node = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, node++) {
      pieces.east[node] = column * cellMetres
      pieces.north[node] = row * cellMetres
    }
  const squares = columns - 1
  const isDrawn = (column: number, row: number, half: number) =>
    column >= 0 &&
    row >= 0 &&
    column < squares &&
    row < rows - 1 &&
    ((halves[row * squares + column] as number) & half) !== 0
  for (let row = 0, square = 0; row < rows - 1; row++)
    for (let column = 0; column < squares; column++, square++) {
      const half = halves[square] as number
      if (half === 0) continue
      const sw = row * columns + column
      const [se, nw, ne] = [sw + 1, sw + columns, sw + columns + 1]
      const [east, diagonal] = [nodes + se, 2 * nodes + sw]
      if (half & lower) {
        if (half & lowerCut)
          clipTriangle(pieces, inward, [sw, se, ne], [sw, east, diagonal], rimsOfLower(column, row))
        else addWhole(pieces, sw, se, ne, sw, east, diagonal, rimsOfLower(column, row))
      }
      if (half & upper) {
        if (half & upperCut)
          clipTriangle(pieces, inward, [sw, ne, nw], [diagonal, nw, nodes + sw], rimsOfUpper(column, row))
        else addWhole(pieces, sw, ne, nw, diagonal, nw, nodes + sw, rimsOfUpper(column, row))
      }
    }
  return {
    origin,
    east: pieces.east.subarray(0, pieces.nodeCount),
    north: pieces.north.subarray(0, pieces.nodeCount),
    valueMm: pieces.values.subarray(0, pieces.nodeCount),
    meanOf: [],
    uncertaintyMm: new Float64Array(0),
    triangles: pieces.triangles.subarray(0, pieces.cornerCount),
    sides: pieces.sides.subarray(0, pieces.cornerCount),
    sideCount: pieces.sideCount,
    rim: Uint32Array.from(pieces.rim),
    extentMetres: Math.max(columns, rows) * cellMetres,
  }

  /** Of a triangle's three sides, 1, 2 and 4, those that no other triangle has. */
  function rimsOfLower(column: number, row: number): number {
    return (
      (isDrawn(column, row - 1, upper) ? 0 : 1) |
      (isDrawn(column + 1, row, upper) ? 0 : 2) |
      (isDrawn(column, row, upper) ? 0 : 4)
    )
  }

  function rimsOfUpper(column: number, row: number): number {
    return (
      (isDrawn(column, row, lower) ? 0 : 1) |
      (isDrawn(column, row + 1, lower) ? 0 : 2) |
      (isDrawn(column - 1, row, lower) ? 0 : 4)
    )
  }
}

function addWhole(
  mesh: CutMesh,
  a: number,
  b: number,
  c: number,
  ab: number,
  bc: number,
  ca: number,
  rims: number,
): void {
  const { triangles, sides, cornerCount: at } = mesh
  triangles[at] = a
  triangles[at + 1] = b
  triangles[at + 2] = c
  sides[at] = ab
  sides[at + 1] = bc
  sides[at + 2] = ca
  mesh.cornerCount = at + 3
  if (rims === 0) return
  if (rims & 1) mesh.rim.push(a, b)
  if (rims & 2) mesh.rim.push(b, c)
  if (rims & 4) mesh.rim.push(c, a)
}

/** Bits of a square: which of its triangles are drawn, and which of those in part. */
const [lower, upper, lowerCut, upperCut] = [1, 2, 4, 8] as const

/** A node this near to the edge, in cells, counts as beyond it, so that no triangle is cut without an area. */
const hair = 1e-5

/** How far nodes lie inside what is shown, never 0; NaN where nothing can be drawn up to a node. */
function inwardOf({ edge, mask, cellMetres }: ValueGrid): Float64Array {
  const least = hair * cellMetres
  return edge
    ? edge.inwardMetres.map((inward) => (Math.abs(inward) < least ? -least : inward))
    : Float64Array.from(mask, (code) => (code === 0 ? 1 : Number.NaN))
}

function drawnHalves({ columns, rows, edge }: ValueGrid, inward: Float64Array) {
  const halves = new Uint8Array((columns - 1) * (rows - 1))
  const part = edge?.part ?? null
  let [drawn, cut] = [0, 0]
  const drawing = (a: number, b: number, c: number, whole: number, inPart: number) => {
    const [one, two, three] = [inward[a] as number, inward[b] as number, inward[c] as number]
    if (!(Math.max(one, two, three) > 0)) return 0
    if (part !== null && !(part[a] === part[b] && part[b] === part[c])) return 0
    drawn++
    if (one > 0 && two > 0 && three > 0) return whole
    cut++
    return whole | inPart
  }
  for (let row = 0, square = 0; row < rows - 1; row++)
    for (let column = 0; column < columns - 1; column++, square++) {
      const sw = row * columns + column
      const ne = sw + columns + 1
      halves[square] =
        drawing(sw, sw + 1, ne, lower, lowerCut) | drawing(sw, ne, sw + columns, upper, upperCut)
    }
  return { halves, drawn, cut }
}
