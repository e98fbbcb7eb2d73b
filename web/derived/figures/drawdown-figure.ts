import type { DrawdownComparison } from '#domain/ground/groundwater/measured-drawdown.ts'
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
  usedPoint,
} from './analysis-frame.ts'

/** Drawdown in time at each piezometer, measured and by Theis; `timeUnit` is that of the pumping rates. */
export const drawdownFigure = (
  outcome: Outcome<DrawdownComparison>,
  options: AnalysisFigureOptions & { readonly timeUnit: 'd' | 'h' | 'min' | 's' },
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Time', options.timeUnit, { including: [0] }),
      y: axis('Drawdown', 'm', { reversed: true, decimals: 2, including: [0] }),
    },
    (found) => {
      const first = new Map(found.used.map((one) => [one.id, one]))
      const newest = new Map(found.used.map(({ id, time }) => [id, time]))
      const last = Math.max(...found.used.map(({ time }) => time))
      const start = Math.min(0, ...found.used.map(({ time }) => time))
      return {
        curves: [...first.values()].map((place) => ({
          name: `computed at ${place.id}`,
          style: 'predicted' as const,
          places: evenly(start, last, 81).map((time) => [time, found.at({ ...place, time })] as const),
        })),
        points: [
          ...found.used.map(({ id, time, drawdownMetres, standardUncertaintyMetres }, at) =>
            // Named once, at its last reading: a name at each would hide them all.
            usedPoint(
              newest.get(id) === time ? id : '',
              [time, drawdownMetres],
              `${id}: ${cell(drawdownMetres, 2)} m measured, ${cell(found.computedMetres[at] ?? null, 2)} m computed.`,
              { choice: id, halfBar: halfBarOf(standardUncertaintyMetres) },
            ),
          ),
          ...leftOutPoints(
            found.leftOut,
            ({ id }) => id,
            ({ time, drawdownMetres }) => [time, drawdownMetres],
            ({ id }) => id,
          ),
        ],
        table: {
          caption: 'Drawdown measured and computed',
          headings: [
            'Piezometer',
            `Time, ${options.timeUnit}`,
            'Measured, m',
            'Computed, m',
            'Difference, m',
            'Left out',
          ],
          rows: [
            ...found.used.map(({ id, time, drawdownMetres }, at) => [
              id,
              cell(time, 2),
              cell(drawdownMetres, 3),
              cell(found.computedMetres[at] ?? null, 3),
              cell(found.differenceMetres[at] ?? null, 3),
              '',
            ]),
            ...found.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.time, 2),
              cell(item.drawdownMetres, 3),
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
