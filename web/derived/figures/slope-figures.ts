import type { FailureForecast } from '#domain/ground/slopes/failure-forecast.ts'
import type { PresentVelocity } from '#domain/ground/slopes/present-velocity.ts'
import type { Outcome } from '#domain/outcome.ts'
import { lineAt } from '#domain/statistics/least-squares.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  evenly,
  figureOf,
  leftOutPoints,
  remarksOf,
  usedPoint,
} from './analysis-frame.ts'

/** One over the velocity in time, with the line of each window; a refusal shows no time. */
export const inverseVelocityFigure = (
  outcome: Outcome<FailureForecast>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Time', '', { scale: 'instant' }),
      y: axis('One over the velocity, days per mm', '', { decimals: 3, including: [0] }),
    },
    (found) => ({
      curves: found.windows.map(({ fromEpochMs, atEpochMs, inverseAtStart, rates }) => ({
        name: `line through the last ${rates} rates`,
        style: 'predicted' as const,
        places: [
          [fromEpochMs, inverseAtStart],
          [atEpochMs, 0],
        ] as const,
      })),
      points: found.rates.map(({ atEpochMs, mmPerDay }) =>
        usedPoint('', [atEpochMs, 1 / Math.abs(mmPerDay)], `${cell(mmPerDay, 2)} mm a day.`),
      ),
      rules: [
        { across: 'x', at: found.earliestEpochMs, name: 'earliest' },
        { across: 'x', at: found.latestEpochMs, name: 'latest' },
      ],
      table: {
        caption: 'Windows and where their lines reach 0',
        headings: ['Rates', 'Share explained', 'Days after the last rate'],
        rows: found.windows.map(({ rates, rSquared, atEpochMs }) => [
          String(rates),
          cell(rSquared, 3),
          cell((atEpochMs - (found.rates.at(-1)?.atEpochMs ?? atEpochMs)) / 86_400_000, 2),
        ]),
      },
      remarks: [
        ...remarksOf(found),
        ...found.leftOut.map(({ reason }) => `A reading is left out. ${reason}`),
      ],
    }),
  )

/** Movement in time with the line of the present velocity and its band. */
export const velocityFigure = (
  outcome: Outcome<PresentVelocity>,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Time', '', { scale: 'instant' }), y: axis('Movement', 'mm') },
    (found) => {
      const from = found.used[0]?.atEpochMs ?? 0
      const until = found.used.at(-1)?.atEpochMs ?? from
      const places = evenly(from, until, 41).map((instant) => {
        const { value, standardError } = lineAt(found.line, (instant - from) / 86_400_000)
        return [instant, value, 1.96 * standardError] as const
      })
      return {
        bands: [
          {
            name: 'line, 95 %',
            places: places.map(([instant, value, half]) => [instant, value - half, value + half] as const),
          },
        ],
        curves: [
          {
            name: `${cell(found.mmPerDay, 3)} ± ${cell(found.standardErrorMmPerDay, 3)} mm a day (standard error)`,
            style: 'fitted',
            places: places.map(([instant, value]) => [instant, value] as const),
          },
        ],
        points: [
          ...found.used.map(({ atEpochMs, movementMm }) =>
            usedPoint('', [atEpochMs, movementMm], `${cell(movementMm, 2)} mm.`),
          ),
          ...leftOutPoints(
            found.leftOut,
            () => '',
            ({ atEpochMs, movementMm }) => [atEpochMs, movementMm],
          ),
        ],
        table: {
          caption: 'Movement in the window',
          headings: ['Days', 'Movement, mm', 'Left out'],
          rows: [
            ...found.used.map(({ atEpochMs, movementMm }) => [
              cell((atEpochMs - from) / 86_400_000, 2),
              cell(movementMm, 2),
              '',
            ]),
            ...found.leftOut.map(({ item, reason }) => [
              cell((item.atEpochMs - from) / 86_400_000, 2),
              cell(item.movementMm, 2),
              reason,
            ]),
          ],
        },
        remarks: remarksOf(found),
      }
    },
  )
