import { openReviewPage } from '../../state/review-page.ts'
import { chooseReviewedSeries } from '../../state/reviewed-series.ts'
import { selectInstrument, selectPoint } from '../../state/selection.ts'
import { siteLookup } from '../../state/site-document.ts'

/** Opens the evidence of one series, of a point or of a whole instrument. */
export function openReviewOf(id: string): void {
  const series = siteLookup().seriesById.get(id)
  if (!series) return
  if (siteLookup().pointById.has(series.point)) selectPoint(series.point, series.measure)
  else selectInstrument(series.point)
  chooseReviewedSeries(id)
  openReviewPage('case')
}
