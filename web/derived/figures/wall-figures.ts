import { shareBehindWall, type TroughBehindWall } from '#domain/ground/troughs/trough-behind-wall.ts'
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

/** Deflection of a wall by depth, and the settlement behind it with the bounds that follow. */
export const wallFigures = (
  outcome: Outcome<TroughBehindWall>,
  options: AnalysisFigureOptions,
): readonly [deflection: FigureProps, behind: FigureProps] => [
  deflectionFigure(outcome, options),
  behindFigure(outcome, options),
]

const deflectionFigure = (outcome: Outcome<TroughBehindWall>, options: AnalysisFigureOptions) =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Deflection into the excavation', 'mm', { including: [0] }),
      y: axis('Depth', 'm', { reversed: true, including: [0] }),
    },
    (found) => ({
      curves: [
        {
          name: 'measured',
          style: 'measured',
          places: found.wall.map(({ inwardMm, depthMetres }) => [inwardMm, depthMetres] as const),
        },
      ],
      rules: [{ across: 'y', at: found.greatestDeflectionDepthMetres, name: 'greatest' }],
      table: {
        caption: 'Deflection of the wall by depth',
        headings: ['Depth, m', 'Into the excavation, mm'],
        rows: found.wall.map(({ depthMetres, inwardMm }) => [cell(depthMetres, 2), cell(inwardMm, 2)]),
      },
    }),
  )

const behindFigure = (outcome: Outcome<TroughBehindWall>, options: AnalysisFigureOptions) =>
  figureOf(
    outcome,
    options,
    { x: axis('Behind the wall', 'm', { including: [0] }), y: settlementAxis },
    (found) => {
      const [least, most] = found.greatestSettlementMm
      const places = evenly(0, Math.max(...found.shape.map(({ distanceMetres }) => distanceMetres)), 121)
      const points = found.leftOut.flatMap(({ item, reason }) => ('id' in item ? [{ item, reason }] : []))
      return {
        bands: [
          {
            name: 'between half and all of the greatest deflection',
            places: places.map((away) => {
              const share = shareBehindWall(found, away)
              return [away, share * least, share * most] as const
            }),
          },
        ],
        points: [
          ...found.points.map(({ id, distanceMetres, settlementMm, standardUncertaintyMm }) =>
            usedPoint(
              id,
              [distanceMetres, settlementMm],
              `${id}, ${cell(distanceMetres, 1)} m behind the wall: ${cell(settlementMm, 1)} mm.`,
              { choice: id, halfBar: halfBarOf(standardUncertaintyMm) },
            ),
          ),
          ...leftOutPoints(
            points,
            ({ id }) => id,
            ({ distanceMetres, settlementMm }) => [distanceMetres, settlementMm],
            ({ id }) => id,
          ),
        ],
        table: {
          caption: 'Settlement behind the wall beside its bounds',
          headings: [
            'Point',
            'Behind the wall, m',
            'Settlement, mm',
            'At least, mm',
            'At most, mm',
            'Left out',
          ],
          rows: [
            ...found.points.map(({ id, distanceMetres, settlementMm }) => [
              id,
              cell(distanceMetres, 1),
              cell(settlementMm, 2),
              cell(shareBehindWall(found, distanceMetres) * least, 2),
              cell(shareBehindWall(found, distanceMetres) * most, 2),
              '',
            ]),
            ...points.map(({ item, reason }) => [
              item.id,
              cell(item.distanceMetres, 1),
              cell(item.settlementMm, 2),
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
