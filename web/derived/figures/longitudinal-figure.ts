import { type LongitudinalTrough, longitudinalAt } from '#domain/ground/troughs/fit-longitudinal.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  evenly,
  figureOf,
  leftOutPoints,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** Settlement by the distance from the face: before it comes on the right, when it has passed on the left. */
export const longitudinalFigure = (
  outcome: Outcome<LongitudinalTrough>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Ahead of the face', 'm', { including: [0] }), y: settlementAxis },
    (fit) => {
      const ahead = fit.used.map(({ aheadOfFaceMetres }) => aheadOfFaceMetres)
      const places = evenly(Math.min(...ahead), Math.max(...ahead), 121)
      return {
        curves: [
          {
            name: `fitted, ${cell(100 * fit.shareAtFace, 0)} % when the face passes`,
            style: 'fitted',
            places: places.map((place) => [place, longitudinalAt(fit, place)] as const),
          },
        ],
        points: [
          ...fit.used.map(({ id, aheadOfFaceMetres, settlementMm }) =>
            usedPoint(
              '',
              [aheadOfFaceMetres, settlementMm],
              `${id}, ${cell(aheadOfFaceMetres, 1)} m ahead of the face: ${cell(settlementMm, 1)} mm.`,
            ),
          ),
          ...leftOutPoints(
            fit.leftOut,
            () => '',
            ({ aheadOfFaceMetres, settlementMm }) => [aheadOfFaceMetres, settlementMm],
          ),
        ],
        rules: [
          { across: 'x', at: 0, name: 'face' },
          { across: 'y', at: fit.finalSettlementMm.value, name: 'final, fitted' },
        ],
        table: {
          caption: 'Settlement by distance from the face',
          headings: ['Point', 'Ahead of the face, m', 'Settlement, mm', 'Less fitted, mm', 'Left out'],
          rows: [
            ...fit.used.map(({ id, aheadOfFaceMetres, settlementMm }, at) => [
              id,
              cell(aheadOfFaceMetres, 1),
              cell(settlementMm, 2),
              cell(fit.residualsMm[at] ?? null, 2),
              '',
            ]),
            ...fit.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.aheadOfFaceMetres, 1),
              cell(item.settlementMm, 2),
              '–',
              reason,
            ]),
          ],
        },
        remarks: remarksOf(fit),
      }
    },
  )
