import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import { notesOfLast } from '../../derived/notes-of-value.ts'
import { foundOfValues } from '../../derived/verdict-on-value.ts'
import { readableDecimals } from '../../ui/format-value.ts'
import { isSilent, standingOf } from '../../ui/state-scale.ts'
import type { SectionPoint } from './section-props.ts'

/** Kinds that stand in the ground or on it and belong in a section; the rest measure weather and loggers. */
const drawnKinds = new Set([
  'piezometer',
  'standpipe',
  'extensometer',
  'settlement-point',
  'tiltmeter',
  'crack-meter',
  'strut-load',
  'tilt-beam',
  'settlement-cell',
])

/** Measuring points beside the line, each where it is seen from the side. */
export function pointsOf(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState>,
  clockEpochMs: number,
): SectionPoint[] {
  const seriesByNumber = new Map(document.series.map((series) => [series.series, series]))
  const ends = seriesEnds(document)
  const found = foundOfValues(document)
  const ids = new Set(document.points.map((point) => point.id))
  return (
    document.points
      .filter((point) => drawnKinds.has(point.kind))
      // The gauges of a strut stand behind its force; the strut itself is shown.
      .filter(
        (point) => point.kind !== 'strut-load' || point.id === point.instrument || !ids.has(point.instrument),
      )
      .filter(
        (point) =>
          Math.min(
            point.retiredAtEpochMs ?? Number.POSITIVE_INFINITY,
            ends.get(point.primarySeries ?? -1) ?? Number.POSITIVE_INFINITY,
          ) > clockEpochMs,
      )
      .map((point) => {
        const series = point.primarySeries === null ? undefined : seriesByNumber.get(point.primarySeries)
        const state = series && states.get(series.series)
        return {
          point: point.id,
          kind: point.kind,
          measure: series?.measure ?? null,
          eastingMetres: point.eastingMetres,
          northingMetres: point.northingMetres,
          levelMetres: point.levelMetres,
          stratum: point.stratum,
          standing: states.size === 0 ? 'unknown' : standingOf(state),
          value: state?.value ?? null,
          unit: series?.unit ?? '',
          decimals: series ? readableDecimals(series.decimals, series.standardUncertainty) : 0,
          ageMs: state?.atEpochMs == null ? null : clockEpochMs - state.atEpochMs,
          silent: states.size > 0 && isSilent(state),
          notes: [
            ...(series ? [found(series.id, state?.atEpochMs ?? null)] : []),
            ...notesOfLast(state),
          ].filter((note) => note !== ''),
        }
      })
  )
}
