import { type CutMesh, clipTriangle } from './clip-triangle.ts'
import type { SurfaceMesh } from './settlement-surface.ts'
import type { ValueGrid } from './value-grid.ts'

/**
 * The squares of a grid as the mesh that contours, bands and volumes are taken from: lines run through whole squares,
 * slopes and volumes are those of two triangles along the rising diagonal. Where the grid tells how far its nodes lie inside what is shown, triangles are cut there
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
    cells: new Uint32Array(4 * (drawn + cut)),
    sides: new Uint32Array(4 * (drawn + cut)),
    rim: [],
    crossings: new Map(),
    nodeCount: nodes,
    triangleCount: 0,
    cellCount: 0,
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
      const rims = rimsOf(column, row)
      if (half === wholeSquare) {
        addSquare(pieces, sw, columns, nodes, rims)
        continue
      }
      const diagonal = 2 * nodes + sw
      if (half & lower)
        clipTriangle(
          pieces,
          inward,
          [sw, se, ne],
          [sw, nodes + se, diagonal],
          (rims & 3) | (half & upper ? 0 : 4),
        )
      if (half & upper)
        clipTriangle(
          pieces,
          inward,
          [sw, ne, nw],
          [diagonal, nw, nodes + sw],
          (half & lower ? 0 : 1) | ((rims & 12) >> 1),
        )
    }
  return {
    origin,
    east: pieces.east.subarray(0, pieces.nodeCount),
    north: pieces.north.subarray(0, pieces.nodeCount),
    valueMm: pieces.values.subarray(0, pieces.nodeCount),
    meanOf: [],
    uncertaintyMm: new Float64Array(0),
    triangles: pieces.triangles.subarray(0, 3 * pieces.triangleCount),
    cells: pieces.cells.subarray(0, 4 * pieces.cellCount),
    sides: pieces.sides.subarray(0, 4 * pieces.cellCount),
    sideCount: pieces.sideCount,
    rim: Uint32Array.from(pieces.rim),
    extentMetres: Math.max(columns, rows) * cellMetres,
  }

  /** Of a square's sides (south 1, east 2, north 4, west 8) those with nothing drawn beyond. */
  function rimsOf(column: number, row: number): number {
    return (
      (isDrawn(column, row - 1, upper) ? 0 : 1) |
      (isDrawn(column + 1, row, upper) ? 0 : 2) |
      (isDrawn(column, row + 1, lower) ? 0 : 4) |
      (isDrawn(column - 1, row, lower) ? 0 : 8)
    )
  }
}

/** Adds a square that is wholly shown: two triangles, and one cell for lines. */
function addSquare(mesh: CutMesh, sw: number, columns: number, nodes: number, rims: number): void {
  const { triangles, cells, sides, rim } = mesh
  const [se, nw, ne] = [sw + 1, sw + columns, sw + columns + 1]
  const corner = 3 * mesh.triangleCount
  triangles[corner] = sw
  triangles[corner + 1] = se
  triangles[corner + 2] = ne
  triangles[corner + 3] = sw
  triangles[corner + 4] = ne
  triangles[corner + 5] = nw
  mesh.triangleCount += 2
  const cell = 4 * mesh.cellCount++
  cells[cell] = sw
  cells[cell + 1] = se
  cells[cell + 2] = ne
  cells[cell + 3] = nw
  sides[cell] = sw
  sides[cell + 1] = nodes + se
  sides[cell + 2] = nw
  sides[cell + 3] = nodes + sw
  if (rims === 0) return
  if (rims & 1) rim.push(sw, se)
  if (rims & 2) rim.push(se, ne)
  if (rims & 4) rim.push(ne, nw)
  if (rims & 8) rim.push(nw, sw)
}

/** Bits of a square: which of its triangles are drawn, and whether one of them in part. */
const [lower, upper, inPart] = [1, 2, 4] as const
const wholeSquare = lower | upper

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
  const drawing = (a: number, b: number, c: number, half: number) => {
    const [one, two, three] = [inward[a] as number, inward[b] as number, inward[c] as number]
    if (!(Math.max(one, two, three) > 0)) return 0
    if (part !== null && !(part[a] === part[b] && part[b] === part[c])) return 0
    drawn++
    if (one > 0 && two > 0 && three > 0) return half
    cut++
    return half | inPart
  }
  for (let row = 0, square = 0; row < rows - 1; row++)
    for (let column = 0; column < columns - 1; column++, square++) {
      const sw = row * columns + column
      const ne = sw + columns + 1
      halves[square] = drawing(sw, sw + 1, ne, lower) | drawing(sw, ne, sw + columns, upper)
    }
  return { halves, drawn, cut }
}
