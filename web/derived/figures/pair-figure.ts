import type { BetweenTwoPoints } from '#domain/ground/between-two-points.ts'
import type { SettledPlace } from '#domain/ground/settled-place.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  figureOf,
  halfBarOf,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** Settlement of two points, and of a third between them, along their line. */
export const pairFigure = (outcome: Outcome<BetweenTwoPoints>, options: AnalysisFigureOptions): FigureProps =>
  figureOf(outcome, options, { x: axis('Along the line of the two', 'm'), y: settlementAxis }, (pair) => {
    const [first, second] = pair.used
    if (!first || !second) return {}
    const placed = pair.used.map((place) => ({
      ...place,
      along:
        place === first ? 0 : place === second ? pair.distanceMetres : (pair.middle?.chainageMetres ?? 0),
    }))
    const straight = [
      [0, first.settlementMm],
      [pair.distanceMetres, second.settlementMm],
    ] as const
    const bent = placed
      .toSorted((one, other) => one.along - other.along)
      .map(({ along, settlementMm }) => [along, settlementMm] as const)
    return {
      curves: [
        // A slope is not told across a barrier, so none is drawn.
        ...(pair.slopeMmPerM === null
          ? []
          : [{ name: 'straight between the two', style: 'earlier' as const, places: straight }]),
        ...(pair.middle === null
          ? []
          : [{ name: 'by way of the third', style: 'measured' as const, places: bent }]),
      ],
      points: placed.map(({ id, along, settlementMm, standardUncertaintyMm }) =>
        usedPoint(id, [along, settlementMm], saysOf(id, settlementMm, standardUncertaintyMm), {
          choice: id,
          halfBar: halfBarOf(standardUncertaintyMm),
        }),
      ),
      table: {
        caption: 'The points, along their line',
        headings: ['Point', 'Along, m', 'Settlement, mm', 'Standard uncertainty, mm', 'Left out'],
        rows: [
          ...placed.map(({ id, along, settlementMm, standardUncertaintyMm }) => [
            id,
            cell(along, 2),
            cell(settlementMm, 2),
            cell(standardUncertaintyMm, 2),
            '',
          ]),
          ...pair.leftOut.map(({ item, reason }: { item: SettledPlace; reason: string }) => [
            item.id,
            '–',
            cell(item.settlementMm, 2),
            cell(item.standardUncertaintyMm, 2),
            reason,
          ]),
        ],
      },
      remarks: [...remarksOf(pair), ...pair.leftOut.map(({ item, reason }) => `${item.id}: ${reason}`)],
    }
  })

const saysOf = (id: string, settlementMm: number, uncertaintyMm: number | null): string =>
  `${id}: settlement ${cell(settlementMm, 1)} mm, ${uncertaintyMm === null ? 'its uncertainty not known' : `± ${cell(1.96 * uncertaintyMm, 1)} mm (95 %)`}.`
