import { cumulativeDeflection, type FixedEnd } from '#domain/reduction/cumulative-deflection.ts'
import type { TraverseReview } from '#domain/reduction/review-traverse.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'

/** What is drawn of a survey: its deflection, or its changes with a fault through them. */
export interface TraverseFigureOptions {
  readonly title: string
  readonly fixedEnd: FixedEnd | null
  readonly stillBelowMetres: number | null
  /** What a correction would take off the deviation of each interval, mm, and its name; null while none is drafted. */
  readonly taken: { readonly name: string; readonly perIntervalMm: readonly number[] } | null
  readonly timeZone: string
}

/** Changes of deviation by depth, the fault through them, and the deflection before and after it is taken off. */
export function traverseFigures(
  review: TraverseReview,
  options: TraverseFigureOptions,
): readonly [changes: FigureProps, deflection: FigureProps] {
  return [changeFigure(review, options), deflectionFigure(review, options)]
}

function changeFigure(review: TraverseReview, { taken, ...options }: TraverseFigureOptions): FigureProps {
  const { intervals } = review
  return {
    ...frameOf(options, 'Change of deviation'),
    title: `${options.title}: change of each interval against the zero survey`,
    curves:
      taken === null
        ? []
        : [
            {
              name: taken.name,
              style: 'fitted',
              places: intervals.map(({ depthMetres }, at) => [taken.perIntervalMm[at] ?? 0, depthMetres]),
            },
          ],
    points: intervals.flatMap(({ point, depthMetres, change, still }) =>
      change === null
        ? []
        : [
            {
              choice: null,
              name: '',
              place: [change, depthMetres] as const,
              halfBar: null,
              leftOut: false,
              says: `${point}, ${formatValue(depthMetres, 2)} m: ${formatValue(change, 2)} mm${still ? ', taken to stand still' : ''}`,
            },
          ],
    ),
    table: {
      caption: 'Both faces of every interval, mm',
      headings: ['Depth, m', 'Face 0', 'Face 180', 'Checksum', 'Deviation', 'Change', 'Deflection'],
      rows: intervals.map((one) => [
        formatValue(one.depthMetres, 2),
        ...[one.face0, one.face180, one.checksum, one.deviation, one.change, one.deflection].map((value) =>
          formatValue(value, 2),
        ),
      ]),
    },
  }
}

function deflectionFigure(
  { intervals }: TraverseReview,
  { taken, fixedEnd, ...options }: TraverseFigureOptions,
): FigureProps {
  const ends = (values: readonly (number | null)[]): FigureProps['curves'][number]['places'] => {
    const at = intervals.map(({ depthMetres, lengthMetres }, interval) => {
      const half = (lengthMetres ?? 0) / 2
      const value = values[interval] ?? null
      return value === null ? null : ([value, depthMetres + (fixedEnd === 'head' ? half : -half)] as const)
    })
    const [first, last] = [intervals[0], intervals.at(-1)]
    if (fixedEnd === 'toe' && last) return [...at, [0, last.depthMetres + (last.lengthMetres ?? 0) / 2]]
    return fixedEnd === 'head' && first ? [[0, first.depthMetres - (first.lengthMetres ?? 0) / 2], ...at] : at
  }
  const corrected = correctedDeflections(intervals, fixedEnd, taken?.perIntervalMm ?? null)
  return {
    ...frameOf(options, 'Deflection'),
    title: `${options.title}: deflection from the still end`,
    curves: [
      { name: 'as read', style: 'measured', places: ends(intervals.map(({ deflection }) => deflection)) },
      ...(corrected === null
        ? []
        : [{ name: 'with the correction', style: 'predicted' as const, places: ends(corrected) }]),
    ],
    points: [],
    table: {
      caption: 'Deflection by depth, mm',
      headings: ['Depth, m', 'As read', ...(corrected === null ? [] : ['With the correction'])],
      rows: intervals.map(({ depthMetres, deflection }, at) => [
        formatValue(depthMetres, 2),
        formatValue(deflection, 2),
        ...(corrected === null ? [] : [formatValue(corrected[at] ?? null, 2)]),
      ]),
    },
  }
}

/** Deflections once an amount is taken off each change; null where no end is still or nothing is taken. */
export function correctedDeflections(
  intervals: TraverseReview['intervals'],
  fixedEnd: FixedEnd | null,
  perIntervalMm: readonly number[] | null,
): readonly (number | null)[] | null {
  if (fixedEnd === null || perIntervalMm === null) return null
  const changes = intervals.map(({ change }, at) =>
    change === null ? null : change - (perIntervalMm[at] ?? 0),
  )
  return cumulativeDeflection(changes, fixedEnd)
}

const frameOf = (
  { stillBelowMetres, timeZone }: Omit<TraverseFigureOptions, 'taken' | 'fixedEnd'>,
  name: string,
): Omit<FigureProps, 'title' | 'curves' | 'points' | 'table'> => ({
  x: { name, unit: 'mm', scale: 'even', reversed: false, decimals: 1, including: [0] },
  y: { name: 'Depth', unit: 'm', scale: 'even', reversed: true, decimals: 1, including: [0] },
  bands: [],
  rules: [
    { across: 'x', at: 0, name: '' },
    ...(stillBelowMetres === null
      ? []
      : [{ across: 'y' as const, at: stillBelowMetres, name: 'taken to stand still below' }]),
  ],
  selected: null,
  timeZone,
  remarks: [],
  message: null,
})
