import type { WidthsWithDepth } from '#domain/ground/troughs/width-with-depth.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, cell, figureOf, remarksOf, usedPoint } from './analysis-frame.ts'

/** Width of the trough against depth, measured and of clay. */
export const widthWithDepthFigure = (
  outcome: Outcome<WidthsWithDepth>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Width i', 'm', { including: [0] }),
      y: axis('Depth', 'm', { reversed: true, including: [0] }),
    },
    (found) => {
      const rows = found.used
        .map((one, at) => ({ ...one, ...(found.compared[at] as (typeof found.compared)[number]) }))
        .toSorted((one, other) => one.depthMetres - other.depthMetres)
      return {
        curves: [
          {
            name: 'expected in clay',
            style: 'predicted',
            places: rows.map(
              ({ depthMetres, expectedWidthMetres }) => [expectedWidthMetres, depthMetres] as const,
            ),
          },
          {
            name: 'with the K of the surface',
            style: 'limit',
            places: rows.map(
              ({ depthMetres, constantKWidthMetres }) => [constantKWidthMetres, depthMetres] as const,
            ),
          },
        ],
        points: rows.map(({ depthMetres, widthMetres, expectedWidthMetres, basis }) =>
          usedPoint(
            basis === 'volume-kept' ? 'volume kept' : 'fitted',
            [widthMetres.value, depthMetres],
            `${cell(depthMetres, 1)} m deep: i ${cell(widthMetres.value, 1)} m ± ${cell(widthMetres.standardError, 1)} m, clay ${cell(expectedWidthMetres, 1)} m.`,
          ),
        ),
        table: {
          caption: 'Width of the trough by depth',
          headings: [
            'Depth, m',
            'i, m',
            'Standard error, m',
            'Told from',
            'In clay, m',
            'With the K of the surface, m',
            'K',
            'Over twice the error apart',
          ],
          rows: rows.map((row) => [
            cell(row.depthMetres, 1),
            cell(row.widthMetres.value, 2),
            cell(row.widthMetres.standardError, 2),
            `${row.basis === 'volume-kept' ? 'volume kept' : 'fit across'}${row.points ? `: ${row.points.join(', ')}` : ''}`,
            cell(row.expectedWidthMetres, 2),
            cell(row.constantKWidthMetres, 2),
            cell(row.widthParameter.value, 2),
            row.apart ? 'yes' : 'no',
          ]),
        },
        remarks: remarksOf(found),
      }
    },
  )
