import { drawdownMetres } from '#domain/ground/groundwater/drawdown.ts'
import type { PumpingTestResult } from '#domain/ground/groundwater/pumping-test.ts'
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
  usedPoint,
} from './analysis-frame.ts'

/** Drawdown of a pumping test by decades of time, with Theis's curve of what was found. */
export const pumpingTestFigure = (
  outcome: Outcome<PumpingTestResult>,
  options: AnalysisFigureOptions & { readonly timeUnit: 'd' | 'h' | 'min' | 's' },
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Time since pumping began', options.timeUnit, { scale: 'decades', decimals: 4 }),
      y: axis('Drawdown', 'm', { reversed: true, decimals: 2, including: [0] }),
    },
    (found) => {
      const powers = found.used.map(({ time }) => Math.log10(time))
      const at = (time: number) => drawdownMetres(found, found.ratePerTime, found.radiusMetres, time)
      return {
        curves: [
          {
            name: `Theis, T ${cell(found.transmissivity, 1)} m² per ${options.timeUnit}, S ${found.storativity.toPrecision(3)}`,
            style: 'fitted',
            places: evenly(Math.min(...powers), Math.max(...powers), 81).map(
              (power) => [10 ** power, at(10 ** power)] as const,
            ),
          },
        ],
        points: [
          ...found.used.map(({ time, drawdownMetres: metres }) =>
            usedPoint(
              '',
              [time, metres],
              `${cell(metres, 3)} m, ${cell(metres - at(time), 3)} m from the curve.`,
            ),
          ),
          ...leftOutPoints(
            found.leftOut,
            () => '',
            ({ time, drawdownMetres: metres }) => [time, metres],
          ),
        ],
        table: {
          caption: 'Drawdown measured and by Theis',
          headings: [`Time, ${options.timeUnit}`, 'Measured, m', 'Less Theis, m', 'Left out'],
          rows: [
            ...found.used.map(({ time, drawdownMetres: metres }) => [
              cell(time, 4),
              cell(metres, 3),
              cell(metres - at(time), 3),
              '',
            ]),
            ...found.leftOut.map(({ item, reason }) => [
              cell(item.time, 4),
              cell(item.drawdownMetres, 3),
              '–',
              reason,
            ]),
          ],
        },
        remarks: remarksOf(found),
      }
    },
  )
