import { createMemo, createRoot, createSignal } from 'solid-js'
import type { PlacedInstrument, PlacedPoint, Series } from '#contract/site-document.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { siteLookup } from './site-document.ts'

/** What is looked at: nothing, a whole instrument, or one measuring point and perhaps one of its measures. */
export type Selection =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'instrument'; readonly instrument: string }
  | { readonly kind: 'point'; readonly point: string; readonly measure: Measure | null }

const nothing: Selection = { kind: 'nothing' }
const [selection, setSelection] = createSignal<Selection>(nothing, { equals: sameSelection })

export { selection }

export function selectInstrument(instrument: string): void {
  setSelection({ kind: 'instrument', instrument })
}

/** Selects a measuring point; without a measure, the one that colours it on the plan. */
export function selectPoint(point: string, measure: Measure | null = null): void {
  setSelection({ kind: 'point', point, measure })
}

export function selectNothing(): void {
  setSelection(nothing)
}

export function restoreSelection(wanted: Selection): void {
  setSelection(wanted)
}

/** The selected point; of a selected instrument, none. */
export const selectedPoint = createRoot(() =>
  createMemo((): PlacedPoint | null => {
    const chosen = selection()
    return chosen.kind === 'point' ? (siteLookup().pointById.get(chosen.point) ?? null) : null
  }),
)

/** The instrument that is selected or that the selected point belongs to. */
export const selectedInstrument = createRoot(() =>
  createMemo((): PlacedInstrument | null => {
    const chosen = selection()
    const id = chosen.kind === 'instrument' ? chosen.instrument : selectedPoint()?.instrument
    return id === undefined ? null : (siteLookup().instrumentById.get(id) ?? null)
  }),
)

/** Measuring points of the selection: all of an instrument, or the one. */
export const selectedPoints = createRoot(() =>
  createMemo((): readonly PlacedPoint[] => {
    const point = selectedPoint()
    if (point) return [point]
    const { pointById } = siteLookup()
    return (selectedInstrument()?.points ?? []).flatMap((id) => pointById.get(id) ?? [])
  }),
)

/**
 * Series of the selection: of a point the chosen measure, else the one that colours it; of an instrument what
 * is made from the whole of it first, then one a point.
 */
export const selectedSeries = createRoot(() =>
  createMemo((): readonly Series[] => {
    const chosen = selection()
    const measure = chosen.kind === 'point' ? chosen.measure : null
    const { seriesById, seriesByNumber, seriesOfPoint } = siteLookup()
    const instrument = chosen.kind === 'instrument' ? chosen.instrument : ''
    const whole = seriesOfPoint.get(instrument) ?? []
    const ofPoints = selectedPoints().flatMap((point) => {
      if (measure) return seriesById.get(`${point.id}/${measure}`) ?? []
      if (point.primarySeries !== null) return seriesByNumber.get(point.primarySeries) ?? []
      return seriesOfPoint.get(point.id)?.[0] ?? []
    })
    // A point may bear its instrument's name, and what is made from the whole of it is then its own as well.
    return [...new Set([...whole, ...ofPoints])]
  }),
)

function sameSelection(left: Selection, right: Selection): boolean {
  return JSON.stringify(left) === JSON.stringify(right)
}
