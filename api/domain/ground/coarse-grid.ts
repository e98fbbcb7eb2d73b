import { type GroundPoint, reasonToLeaveOut } from './kriging/ground-point.ts'
import { typicalSpacingMetres } from './point-spacing.ts'

/** Fine enough that lines look smooth, coarse enough that they follow the clock; more only where points stand close in a long site. */
const usualNodes = 160
const mostNodes = 480

/** Nodes of a grid across the longer side of points: four to their typical distance where the site is not too long for it. */
export function nodesAcross(points: readonly GroundPoint[]): number {
  const shape = shapeOf(points)
  if (shape === null) return usualNodes
  const wanted = Math.ceil((4 * shape.extentMetres) / shape.spacingMetres) + 1
  return Math.min(mostNodes, Math.max(usualNodes, wanted))
}

/**
 * Why a grid would lose the shape between points, as its nodes stand farther apart than they do: mostly one position far
 * from all others. Null where it would not.
 */
export function coarseGridSentence(points: readonly GroundPoint[], nodes: number): string | null {
  const shape = shapeOf(points)
  if (shape === null) return null
  const { extentMetres, spacingMetres, farthest } = shape
  const cellMetres = extentMetres / (nodes - 1)
  if (cellMetres <= spacingMetres) return null
  return `Nodes of its grid would stand ${two(cellMetres)} m apart, but points ${two(spacingMetres)} m, so the shape between them would be lost. Farthest from the middle of them is ${farthest.id}, ${two(farthest.metres)} m. Look at the points themselves, at its position first.`
}

function shapeOf(points: readonly GroundPoint[]) {
  const used = points.filter((point) => reasonToLeaveOut(point) === null)
  const spacingMetres = typicalSpacingMetres(used)
  if (spacingMetres === null) return null
  const east = used.map(({ eastingMetres }) => eastingMetres).toSorted((one, other) => one - other)
  const north = used.map(({ northingMetres }) => northingMetres).toSorted((one, other) => one - other)
  const span = (of: readonly number[]) => (of.at(-1) ?? 0) - (of[0] ?? 0)
  const middle = (of: readonly number[]) => of[of.length >> 1] ?? 0
  const farthest = used
    .map(({ id, eastingMetres, northingMetres }) => ({
      id,
      metres: Math.hypot(eastingMetres - middle(east), northingMetres - middle(north)),
    }))
    .reduce((most, one) => (one.metres > most.metres ? one : most))
  return { extentMetres: Math.max(span(east), span(north)), spacingMetres, farthest }
}

const two = (metres: number) => String(Number(metres.toPrecision(2)))
