import type { DrawdownComparison } from '#domain/ground/groundwater/measured-drawdown.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  figureOf,
  halfBarOf,
  remarksOf,
  usedPoint,
} from './analysis-frame.ts'

/** Measured against computed drawdown, a point a piezometer; on the line the two agree. */
export const drawdownAtClockFigure = (
  outcome: Outcome<DrawdownComparison>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Computed drawdown', 'm', { decimals: 2, including: [0] }),
      y: axis('Measured drawdown', 'm', { decimals: 2, including: [0] }),
    },
    (found) => {
      const rows = found.used.map((one, at) => ({
        ...one,
        computedMetres: found.computedMetres[at] ?? Number.NaN,
        differenceMetres: found.differenceMetres[at] ?? Number.NaN,
        awayMetres: Math.min(
          ...found.wells
            .filter(({ id }) => !id.startsWith('image of '))
            .map((well) =>
              Math.hypot(one.eastingMetres - well.eastingMetres, one.northingMetres - well.northingMetres),
            ),
        ),
      }))
      const most = Math.max(0, ...rows.flatMap((row) => [row.computedMetres, row.drawdownMetres]))
      return {
        curves: [
          {
            name: 'measured as computed',
            style: 'limit',
            places: [
              [0, 0],
              [most, most],
            ],
          },
        ],
        points: rows.map((row) =>
          usedPoint(
            row.id,
            [row.computedMetres, row.drawdownMetres],
            `${row.id}, ${cell(row.awayMetres, 0)} m from the nearest well: ${cell(row.drawdownMetres, 2)} m measured, ${cell(row.computedMetres, 2)} m computed, difference ${cell(row.differenceMetres, 2)} m.`,
            { choice: row.id, halfBar: halfBarOf(row.standardUncertaintyMetres) },
          ),
        ),
        table: {
          caption: 'Drawdown measured and computed at the clock',
          headings: [
            'Piezometer',
            'From well, m',
            'Measured, m',
            'Standard uncertainty, m',
            'Computed, m',
            'Difference, m',
            'Left out',
          ],
          rows: [
            ...rows
              .toSorted((one, other) => one.awayMetres - other.awayMetres)
              .map((row) => [
                row.id,
                cell(row.awayMetres, 1),
                cell(row.drawdownMetres, 2),
                cell(row.standardUncertaintyMetres, 3),
                cell(row.computedMetres, 2),
                cell(row.differenceMetres, 2),
                '',
              ]),
            ...found.leftOut.map(({ item, reason }) => [
              item.id,
              '–',
              cell(item.drawdownMetres, 2),
              '–',
              '–',
              '–',
              reason,
            ]),
          ],
        },
        remarks: remarksOf(found),
      }
    },
  )
