import { createMemo, createRoot } from 'solid-js'
import { type WellMark, wellMarks } from '../derived/well-marks.ts'
import { planEpochMs } from './series-states.ts'
import { siteDocument } from './site-document.ts'

/** Pumped wells at the plan's instant; the same list while no rate changes, so that the plan is not given it twice. */
export const shownWells = createRoot(() =>
  createMemo(
    (): readonly WellMark[] => {
      const document = siteDocument()
      return document ? wellMarks(document, planEpochMs()) : []
    },
    [],
    { equals: (left, right) => JSON.stringify(left) === JSON.stringify(right) },
  ),
)
