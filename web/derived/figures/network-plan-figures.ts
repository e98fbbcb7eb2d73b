import type { Outcome } from '#domain/outcome.ts'
import type { BatteryLife } from '#domain/power/battery-life.ts'
import { type NetworkDesign, readingShare } from '#domain/radio/network-plan.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, cell, evenly, figure } from './analysis-frame.ts'

/** Share of readings that arrive against the number of loggers, with the planned number on the curve. */
export function successFigure(
  design: NetworkDesign,
  wantedShare: number,
  mostLoggers: number,
  options: AnalysisFigureOptions,
): FigureProps {
  const furthest = Math.max(50, 1.25 * design.loggers, Math.min(1.1 * mostLoggers, 4 * design.loggers))
  const percent = (loggers: number) => 100 * readingShare({ ...design, loggers })
  const places = evenly(1, furthest, 80).map((loggers) => [loggers, percent(loggers)] as const)
  return figure(
    options,
    {
      x: axis('Loggers on the gateway', '', { decimals: 0, including: [0] }),
      y: axis('Readings that arrive', '%', { decimals: 1, including: [100] }),
    },
    {
      curves: [{ name: 'all factors together', style: 'predicted', places }],
      rules: [
        { across: 'y', at: 100 * wantedShare, name: 'wanted' },
        { across: 'x', at: design.loggers, name: 'planned' },
      ],
      table: {
        caption: 'Share of readings that arrive by number of loggers',
        headings: ['Loggers', 'Arrive, %'],
        rows: evenly(0, furthest, 6).map((loggers) => [
          cell(Math.round(loggers), 0),
          cell(percent(Math.round(loggers)), 2),
        ]),
      },
    },
  )
}

/** Battery life of one to four cells against the interval, with the interval of the current around the chosen number. */
export function lifeFigure(
  lifeAt: (
    cells: number,
    intervalMinutes: number,
  ) => Outcome<{ readonly low: BatteryLife; readonly middle: BatteryLife; readonly high: BatteryLife }>,
  intervalMinutes: number,
  shelfLifeYears: number,
  options: AnalysisFigureOptions,
): FigureProps {
  const axes = {
    x: axis('Minutes between readings', '', { scale: 'decades' as const, decimals: 0 }),
    y: axis('Years from new cells', '', { decimals: 1, including: [0, shelfLifeYears] }),
  }
  const asked = lifeAt(1, intervalMinutes)
  if (!asked.ok)
    return figure(options, axes, {
      message: 'Refused: nothing can be stated.',
      remarks: asked.issues.map(({ message }) => message),
    })
  const from = Math.min(1, intervalMinutes)
  const until = Math.max(120, 2 * intervalMinutes)
  const intervals = evenly(Math.log(from), Math.log(until), 60).map(Math.exp)
  const cells = [1, 2, 3, 4]
  const of = (count: number, minutes: number) => {
    const life = lifeAt(count, minutes)
    return life.ok ? life.value : null
  }
  return figure(options, axes, {
    bands: [1, 4].map((count) => ({
      name: `${count} ${count === 1 ? 'cell' : 'cells'}, current uncertain`,
      places: intervals.flatMap((minutes) => {
        const life = of(count, minutes)
        return life ? [[minutes, life.low.years, life.high.years] as const] : []
      }),
    })),
    curves: cells.map((count) => ({
      name: `${count} ${count === 1 ? 'cell' : 'cells'}`,
      style: (['measured', 'fitted', 'predicted', 'earlier'] as const)[count - 1] ?? 'predicted',
      places: intervals.map((minutes) => {
        const life = of(count, minutes)
        return life && ([minutes, life.middle.years] as const)
      }),
    })),
    rules: [
      { across: 'x', at: intervalMinutes, name: 'planned' },
      { across: 'y', at: shelfLifeYears, name: 'shelf life' },
    ],
    table: {
      caption: `Life from new cells at ${intervalMinutes} min`,
      headings: ['Cells', 'Years', 'Least', 'Most', 'Ended by'],
      rows: cells.flatMap((count) => {
        const life = of(count, intervalMinutes)
        return life
          ? [
              [
                String(count),
                cell(life.middle.years, 1),
                cell(life.low.years, 1),
                cell(life.high.years, 1),
                life.middle.cappedByShelfLife ? 'shelf life' : 'charge',
              ],
            ]
          : []
      }),
    },
  })
}
