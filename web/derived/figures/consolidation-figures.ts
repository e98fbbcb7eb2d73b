import type { ComputedAndMeasured } from '#domain/ground/consolidation/computed-and-measured.ts'
import type { SettlementFromPressures } from '#domain/ground/consolidation/settlement-from-pressures.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  figure,
  figureOf,
  halfBarOf,
  leftOutPoints,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** Excess pore pressure of a string by level, at the start and now. */
export const excessFigure = (
  outcome: Outcome<SettlementFromPressures>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Excess pore pressure', 'kPa', { including: [0] }), y: axis('Level', 'm') },
    (found) => {
      const tips = found.used
        .map((tip, at) => ({ ...tip, dissipated: found.dissipatedPercent[at] ?? null }))
        .toSorted((one, other) => other.levelMetres - one.levelMetres)
      return {
        curves: [
          {
            name: 'at the start',
            style: 'earlier',
            places: tips.map(({ excessAtStartKpa, levelMetres }) => [excessAtStartKpa, levelMetres] as const),
          },
          {
            name: 'now',
            style: 'measured',
            places: tips.map(({ excessNowKpa, levelMetres }) => [excessNowKpa, levelMetres] as const),
          },
        ],
        points: [
          ...tips.map(({ id, excessNowKpa, levelMetres, dissipated }) =>
            usedPoint(
              id,
              [excessNowKpa, levelMetres],
              `${id}: ${cell(excessNowKpa, 1)} kPa of excess left${dissipated === null ? '' : `, ${cell(dissipated, 0)} % gone`}.`,
              { choice: id },
            ),
          ),
          ...leftOutPoints(
            found.leftOut,
            ({ id }) => id,
            ({ excessNowKpa, levelMetres }) => [excessNowKpa, levelMetres],
            ({ id }) => id,
          ),
        ],
        rules: found.layers.flatMap(({ name, topLevelMetres }) => [
          { across: 'y' as const, at: topLevelMetres, name },
        ]),
        table: {
          caption: 'Excess pore pressure by level',
          headings: ['Tip', 'Level, m', 'At the start, kPa', 'Now, kPa', 'Gone, %', 'Left out'],
          rows: [
            ...tips.map(({ id, levelMetres, excessAtStartKpa, excessNowKpa, dissipated }) => [
              id,
              cell(levelMetres, 2),
              cell(excessAtStartKpa, 1),
              cell(excessNowKpa, 1),
              cell(dissipated, 0),
              '',
            ]),
            ...found.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.levelMetres, 2),
              cell(item.excessAtStartKpa, 1),
              cell(item.excessNowKpa, 1),
              '–',
              reason,
            ]),
          ],
        },
        remarks: remarksOf(found),
      }
    },
  )

/** Settlements measured, one beside the other, with the computed one across. */
export const comparedSettlementFigure = (
  found: ComputedAndMeasured,
  options: AnalysisFigureOptions,
): FigureProps =>
  figure(
    options,
    { x: axis('Measurement', '', { decimals: 0, including: [0] }), y: settlementAxis },
    {
      points: [
        ...found.used.map(({ id, settlementMm, standardUncertaintyMm }, at) =>
          usedPoint(id, [at + 1, settlementMm], found.compared[at]?.sentence ?? '', {
            choice: id,
            halfBar: halfBarOf(standardUncertaintyMm),
          }),
        ),
        ...leftOutPoints(
          found.leftOut.map(({ item, reason }, at) => ({
            item: { ...item, row: found.used.length + at + 1 },
            reason,
          })),
          ({ id }) => id,
          ({ row, settlementMm }) => [row, settlementMm],
          ({ id }) => id,
        ),
      ],
      rules: [{ across: 'y', at: found.computedMm, name: 'computed from pressures' }],
      table: {
        caption: 'Measured settlement less computed',
        headings: ['Measurement', 'Settlement, mm', 'Less computed, mm', 'Left out'],
        rows: [
          ...found.used.map(({ id, settlementMm }, at) => [
            id,
            cell(settlementMm, 2),
            cell(found.compared[at]?.differenceMm ?? null, 2),
            '',
          ]),
          ...found.leftOut.map(({ item, reason }) => [item.id, cell(item.settlementMm, 2), '–', reason]),
        ],
      },
      remarks: [...remarksOf(found), ...found.compared.map(({ sentence }) => sentence)],
      message: found.used.length === 0 ? 'Nothing was measured to compare.' : null,
    },
  )
