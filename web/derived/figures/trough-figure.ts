import { settlementAt } from '#domain/ground/trough.ts'
import { fittedAt } from '#domain/ground/troughs/fit-trough.ts'
import type { TroughAcross } from '#domain/ground/troughs/trough-across.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  evenly,
  figureOf,
  halfBarOf,
  leftOutPoints,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** Settlement across an alignment: points, the fitted trough with its band, and the predicted one. */
export const troughFigure = (outcome: Outcome<TroughAcross>, options: AnalysisFigureOptions): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Offset, right positive', 'm', { including: [0] }), y: settlementAxis },
    ({ fitted, predicted, overPredictionMm }) => {
      const centre = fitted.centreOffsetMetres.value
      const offsets = fitted.used.map(({ offsetMetres }) => offsetMetres)
      const reach = 3 * fitted.widthMetres.value
      const places = evenly(Math.min(centre - reach, ...offsets), Math.max(centre + reach, ...offsets), 121)
      return {
        bands: [
          {
            name: 'fitted curve, 95 %',
            places: places.map((offset) => {
              const { value, standardError } = fittedAt(fitted, offset)
              return [offset, value - 1.96 * standardError, value + 1.96 * standardError] as const
            }),
          },
        ],
        curves: [
          {
            name: `fitted, volume loss ${cell(100 * fitted.volumeLoss.value, 2)} % ± ${cell(100 * fitted.volumeLoss.standardError, 2)} % (standard error)`,
            style: 'fitted',
            places: places.map((offset) => [offset, fittedAt(fitted, offset).value] as const),
          },
          {
            name: 'predicted',
            style: 'predicted',
            places: places.map((offset) => [offset, settlementAt(predicted, offset)] as const),
          },
        ],
        points: [
          ...fitted.used.map(({ id, offsetMetres, settlementMm, standardUncertaintyMm }, at) =>
            usedPoint(
              id,
              [offsetMetres, settlementMm],
              `${id}: ${cell(settlementMm, 1)} mm at ${cell(offsetMetres, 1)} m; ${cell(fitted.residualsMm[at] ?? null, 1)} mm from the fitted curve, ${cell(overPredictionMm[at] ?? null, 1)} mm from the predicted.`,
              { choice: id, halfBar: halfBarOf(standardUncertaintyMm) },
            ),
          ),
          ...leftOutPoints(
            fitted.leftOut,
            ({ id }) => id,
            ({ offsetMetres, settlementMm }) => [offsetMetres, settlementMm],
            ({ id }) => id,
          ),
        ],
        rules: [
          { across: 'x', at: 0, name: 'line of the tunnel' },
          { across: 'x', at: centre - fitted.widthMetres.value, name: '−i' },
          { across: 'x', at: centre + fitted.widthMetres.value, name: '+i' },
        ],
        table: {
          caption: 'Settlement across the line, measured less fitted and less predicted',
          headings: [
            'Point',
            'Offset, m',
            'Settlement, mm',
            'Less fitted, mm',
            'Less predicted, mm',
            'Left out',
          ],
          rows: [
            ...fitted.used.map(({ id, offsetMetres, settlementMm }, at) => [
              id,
              cell(offsetMetres, 2),
              cell(settlementMm, 2),
              cell(fitted.residualsMm[at] ?? null, 2),
              cell(overPredictionMm[at] ?? null, 2),
              '',
            ]),
            ...fitted.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.offsetMetres, 2),
              cell(item.settlementMm, 2),
              '–',
              '–',
              reason,
            ]),
          ],
        },
        remarks: remarksOf(fitted),
      }
    },
  )
