import type { TroughAtChainage } from '#domain/ground/troughs/troughs-along.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, cell, figure, usedPoint } from './analysis-frame.ts'

/** Volume loss by chainage, measured beside predicted; a chainage without a trough stands in the table with its reason. */
export function volumeLossFigure(
  troughs: readonly TroughAtChainage[],
  predictedLoss: number,
  options: AnalysisFigureOptions,
): FigureProps {
  const found = troughs.flatMap(({ chainageMetres, trough }) =>
    trough.ok ? [{ chainageMetres, ...trough.value.fitted.volumeLoss, fitted: trough.value.fitted }] : [],
  )
  return figure(
    options,
    {
      x: axis('Chainage', 'm', { including: troughs.map(({ chainageMetres }) => chainageMetres) }),
      y: axis('Volume loss', '%', { decimals: 2, including: [0] }),
    },
    {
      points: found.map(({ chainageMetres, value, standardError }) =>
        usedPoint(
          cell(100 * value, 2),
          [chainageMetres, 100 * value],
          `Chainage ${cell(chainageMetres, 0)} m: volume loss ${cell(100 * value, 2)} % ± ${cell(100 * standardError, 2)} %.`,
          { halfBar: 196 * standardError },
        ),
      ),
      rules: [{ across: 'y', at: 100 * predictedLoss, name: 'predicted' }],
      table: {
        caption: 'Troughs along the alignment',
        headings: [
          'Chainage, m',
          'Volume loss, %',
          'Standard error, %',
          'i, m',
          'Greatest settlement, mm',
          'Refused',
        ],
        rows: troughs.map(({ chainageMetres, trough }) => {
          const fitted = trough.ok ? trough.value.fitted : null
          return [
            cell(chainageMetres, 1),
            cell(fitted && 100 * fitted.volumeLoss.value, 2),
            cell(fitted && 100 * fitted.volumeLoss.standardError, 2),
            cell(fitted?.widthMetres.value ?? null, 2),
            cell(fitted?.greatestSettlementMm.value ?? null, 1),
            trough.ok ? '' : trough.issues.map(({ message }) => message).join(' '),
          ]
        }),
      },
      remarks: [
        'Each volume loss is of the points of its own strip; standard errors hold for residuals that do not depend on each other.',
        ...(found.length < troughs.length
          ? [
              `At ${troughs.length - found.length} of ${troughs.length} chainages no trough can be stated; the table says why.`,
            ]
          : []),
      ],
      message: found.length === 0 ? 'Refused: no trough can be stated at any chainage.' : null,
    },
  )
}
