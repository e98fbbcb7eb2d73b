import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import type { PlanSymbol } from '../plan-symbols.ts'

interface Lookup {
  readonly pointById: ReadonlyMap<string, PlacedPoint>
  readonly seriesByNumber: ReadonlyMap<number, Series>
  readonly seriesOfPoint: ReadonlyMap<string, readonly Series[]>
}

/**
 * The series that a tapped symbol takes to a comparison: one of it that is compared already, to take it out again; else the same
 * quantity as is reviewed; else what is made of the whole instrument; else what colours its first point.
 */
export function seriesOfSymbol(
  { points, instrument }: Pick<PlanSymbol, 'points' | 'instrument'>,
  { pointById, seriesByNumber, seriesOfPoint }: Lookup,
  measure: Measure | null,
  compared: readonly string[],
): string | null {
  const own = [instrument, ...points.filter((point) => point !== instrument)].flatMap(
    (point) => seriesOfPoint.get(point) ?? [],
  )
  const primary = points.flatMap((id) => seriesByNumber.get(pointById.get(id)?.primarySeries ?? -1) ?? [])
  const whole = points.includes(instrument) ? [] : own.filter(({ point }) => point === instrument)
  const [first] = [
    ...own.filter(({ id }) => compared.includes(id)),
    ...own.filter((one) => one.measure === measure),
    ...whole,
    ...primary,
    ...own,
  ]
  return first?.id ?? null
}
