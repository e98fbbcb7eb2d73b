import type { SettlementAlong } from '#domain/ground/troughs/settlement-along.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  figureOf,
  halfBarOf,
  leftOutPoints,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** What the design expects of a point, low to high mm since its zero reading, by the end of a stage; null: nothing. */
export type ExpectedOfPoint = (
  id: string,
) => { readonly low: number; readonly high: number; readonly stage: string } | null

/** Settlement measured along the chainage of an alignment, each point beside what is predicted at its offset. */
export const settlementAlongFigure = (
  outcome: Outcome<SettlementAlong>,
  expectedOf: ExpectedOfPoint,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Chainage', 'm', { decimals: 0 }), y: settlementAxis },
    ({ predictedMm, overPredictionMm, ...found }) => {
      const rows = found.used.map((point, at) => ({
        ...point,
        predicted: predictedMm[at] ?? null,
        over: overPredictionMm[at] ?? null,
      }))
      const expectedText = (id: string) => {
        const expected = expectedOf(id)
        return expected ? `${cell(expected.low, 0)} to ${cell(expected.high, 0)}, ${expected.stage}` : '–'
      }
      return {
        curves: [
          {
            name: 'predicted at the offset of each point',
            style: 'predicted',
            places: rows.map(({ chainageMetres, predicted }) => [chainageMetres, predicted ?? 0] as const),
          },
        ],
        points: [
          ...rows.map(
            ({ id, chainageMetres, offsetMetres, settlementMm, predicted, standardUncertaintyMm }) =>
              usedPoint(
                id,
                [chainageMetres, settlementMm],
                `${id}, chainage ${cell(chainageMetres, 0)} m, ${cell(offsetMetres, 1)} m right of the line: measured ${cell(settlementMm, 1)} mm, predicted ${cell(predicted, 1)} mm.`,
                { choice: id, halfBar: halfBarOf(standardUncertaintyMm) },
              ),
          ),
          ...leftOutPoints(
            found.leftOut,
            ({ id }) => id,
            ({ chainageMetres, settlementMm }) => [chainageMetres, settlementMm],
            ({ id }) => id,
          ),
        ],
        table: {
          caption: 'Settlement along the alignment, measured and predicted',
          headings: [
            'Point',
            'Chainage, m',
            'Offset, m',
            'Measured, mm',
            'Standard uncertainty, mm',
            'Predicted by the drive, mm',
            'Measured less predicted, mm',
            'Design expects since the zero reading, mm',
            'Left out',
          ],
          rows: [
            ...rows.map((row) => [
              row.id,
              cell(row.chainageMetres, 1),
              cell(row.offsetMetres, 1),
              cell(row.settlementMm, 1),
              cell(row.standardUncertaintyMm, 2),
              cell(row.predicted, 1),
              cell(row.over, 1),
              expectedText(row.id),
              '',
            ]),
            ...found.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.chainageMetres, 1),
              cell(item.offsetMetres, 1),
              cell(item.settlementMm, 1),
              cell(item.standardUncertaintyMm, 2),
              '–',
              '–',
              expectedText(item.id),
              reason,
            ]),
          ],
        },
        remarks: remarksOf(found),
      }
    },
  )
