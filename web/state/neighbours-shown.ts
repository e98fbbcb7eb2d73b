import { createMemo, createRoot, createSignal } from 'solid-js'
import { placesOf } from '#domain/review/case/places-of.ts'
import { neighbourDrawing } from '../derived/review/neighbour-drawing.ts'
import type { NeighboursFound, ResidualsFound } from '../derived/review/neighbours-found.ts'
import { isLayerShown } from './plan-layers.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

const [neighbours, setNeighbours] = createSignal<NeighboursFound | null>(null)
const [residuals, setResiduals] = createSignal<ResidualsFound | null>(null)
const [waiting, setWaiting] = createSignal<string | null>(null)
const [trouble, setTrouble] = createSignal<string | null>(null)

/** Around the series reviewed; null until it is known, or while the layer is not shown. */
/** What is being worked out, and what went wrong; each null while nothing is. */
export {
  neighbours as neighboursFound,
  residuals as residualsFound,
  trouble as neighboursTrouble,
  waiting as neighboursWaiting,
}

export function showNeighbours(found: NeighboursFound | null): void {
  setTrouble(null)
  setNeighbours(found)
}

export function showResiduals(found: ResidualsFound | null): void {
  setResiduals(found)
}

export function reportNeighboursWaiting(sentence: string | null): void {
  setWaiting(sentence)
}

export function reportNeighboursTrouble(sentence: string): void {
  setNeighbours(null)
  setTrouble(sentence)
}

/** Neighbours as the plan draws them; null while their layer is not shown. */
export const neighboursDrawn = createRoot(() =>
  createMemo(() => {
    const [document, grid, found] = [siteDocument(), siteGrid(), neighbours()]
    if (!document || !grid || !found || !isLayerShown('neighbours')) return null
    return neighbourDrawing(found, residuals(), placesOf(document), grid.toLngLat)
  }),
)
