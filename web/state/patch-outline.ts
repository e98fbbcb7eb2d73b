import { createMemo, createRoot } from 'solid-js'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { placesOf } from '#domain/review/case/places-of.ts'
import { outlineOfPatch } from '../derived/review/series-in-patch.ts'
import { patch } from './patch.ts'
import { reviewPage } from './review-page.ts'
import { reviewedSeries } from './reviewed-series.ts'
import { sheetTab } from './sheet.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

const none: readonly LngLat[] = []

/** Outline of the patch of plan while it is reviewed; empty else. */
export const patchOutline = createRoot(() =>
  createMemo((): readonly LngLat[] => {
    const [document, grid] = [siteDocument(), siteGrid()]
    if (!document || !grid || sheetTab() !== 'review' || reviewPage() !== 'patch') return none
    const middle = placesOf(document).get(reviewedSeries()?.point ?? '') ?? null
    return outlineOfPatch(patch(), middle).map((corner) => grid.toLngLat(corner))
  }),
)
