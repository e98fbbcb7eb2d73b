import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { Agreement } from '#domain/review/agreement.ts'
import { unitSymbol } from '#domain/units.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { lagText, signedNumber, withInterval } from './interval-text.ts'
import { type NeighbourKind, neighbourSigns } from './neighbour-words.ts'
import { kindOf, type NeighboursFound, type ResidualsFound, residualOf } from './neighbours-found.ts'

/** A neighbour as a line of the table that stands for the map. */
export interface NeighbourRow {
  readonly series: string
  readonly point: string
  readonly what: string
  readonly sign: string
  readonly stands: string
  readonly distance: string
  readonly layer: string
  readonly change: string
  /** The series reviewed less it. */
  readonly difference: string
  readonly correlation: string
  readonly lag: string
  readonly residual: string
  readonly standardised: string
  readonly sentence: string
}

/** Every neighbour within reach, those held against it first, nearest first; the silent and those behind a wall among them. */
export function neighbourRows(
  found: NeighboursFound,
  residuals: ResidualsFound | null,
  points: ReadonlyMap<string, PlacedPoint>,
): readonly NeighbourRow[] {
  const described = (
    series: Pick<Series, 'id' | 'point' | 'measure'>,
    given: NeighbourKind,
    distanceMetres: number,
  ) => {
    const kind = kindOf(found, series.id, given)
    const residual = residualOf(residuals, series.point)
    return {
      series: series.id,
      point: series.point,
      what: measureNames[series.measure],
      sign: neighbourSigns[kind].sign,
      stands: neighbourSigns[kind].name,
      distance: `${distanceMetres.toFixed(distanceMetres < 10 ? 1 : 0)} m`,
      layer: points.get(series.point)?.stratum ?? '–',
      residual: residual ? signedNumber(residual.residual, 2) : '–',
      standardised: residual ? signedNumber(residual.standardised, 2) : '–',
    }
  }
  const since = (series: string, point: string): string | null => {
    const day = found.outOfUse.get(series)
    return day === undefined
      ? null
      : `${point} is out of use since ${day}: nothing is known of it from then on.`
  }
  const untold = { change: '–', difference: '–', correlation: '–', lag: '–' }
  return [
    ...found.agreements.map(
      ({
        neighbour,
        kind,
        change,
        difference,
        correlation,
        lagHours,
        sentence,
      }: Agreement): NeighbourRow => ({
        ...described({ ...neighbour, id: neighbour.series }, kind, neighbour.distanceMetres),
        change:
          change === null
            ? '–'
            : `${withInterval(change.size, change.low, change.high)} ${unitSymbol(neighbour.unit)}`,
        difference:
          difference === null
            ? '–'
            : `${withInterval(difference.size, difference.low, difference.high)} ${unitSymbol(neighbour.unit)}`,
        correlation:
          correlation === null
            ? '–'
            : withInterval(correlation.correlation, correlation.interval[0], correlation.interval[1]),
        lag: correlation === null ? '–' : lagText(lagHours),
        sentence: (kind === 'silent' ? since(neighbour.series, neighbour.point) : null) ?? sentence,
      }),
    ),
    ...found.unread.map(
      ({ series, distanceMetres }): NeighbourRow => ({
        ...described(series, 'silent', distanceMetres),
        ...untold,
        sentence:
          since(series.id, series.point) ??
          `${series.point} has no reading in this stretch: nothing of it was held against ${found.point}.`,
      }),
    ),
    ...found.parted.map(
      ({ series, distanceMetres }): NeighbourRow => ({
        ...described(series, 'parted', distanceMetres),
        ...untold,
        sentence: `${series.point} stands behind a wall that parts the ground: its movement is not held against ${found.point}.`,
      }),
    ),
  ]
}
