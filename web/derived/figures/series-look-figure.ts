import type { Outcome } from '#domain/outcome.ts'
import type { SeriesLook } from '#domain/statistics/look-at-series.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, figureOf, usedPoint } from './analysis-frame.ts'

const dayMs = 86_400_000

/** A stretch of a series with its robust line, its change of level and the values that stand off, which are told by name. */
export const seriesLookFigure = (
  outcome: Outcome<SeriesLook>,
  options: AnalysisFigureOptions & {
    readonly name: string
    readonly unit: string
    readonly decimals: number
  },
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Time', '', { scale: 'instant' }),
      y: axis(options.name, options.unit, { decimals: options.decimals }),
    },
    ({ atEpochMs, values, robust, change, outliers }) => {
      const [first, last] = [atEpochMs[0] ?? 0, atEpochMs.at(-1) ?? 0]
      const lineAt = (at: number) => robust.intercept + (robust.slope * (at - first)) / dayMs
      const text = (value: number) => `${formatValue(value, options.decimals)} ${options.unit}`
      const off = new Map(outliers.map((one) => [one.at, one.median]))
      const turn = change ? (atEpochMs[change.before] ?? null) : null
      return {
        curves: [
          {
            name: 'Theil–Sen line',
            style: 'fitted',
            places: [
              [first, lineAt(first)],
              [last, lineAt(last)],
            ],
          },
          ...(change && turn !== null
            ? [
                {
                  name: 'levels before and after',
                  style: 'predicted' as const,
                  places: [
                    [first, change.meanBefore] as const,
                    [turn, change.meanBefore] as const,
                    null,
                    [turn, change.meanAfter] as const,
                    [last, change.meanAfter] as const,
                  ],
                },
              ]
            : []),
        ],
        points: values.map((value, at) =>
          usedPoint(
            off.has(at) ? 'stands off' : '',
            [atEpochMs[at] ?? first, value],
            off.has(at) ? `${text(value)}, its neighbours ${text(off.get(at) ?? value)}` : text(value),
          ),
        ),
        rules: turn === null ? [] : [{ across: 'x', at: turn, name: 'change of level' }],
        table: {
          caption: `${options.name} in the stretch, ${options.unit}`,
          headings: ['Days', 'Value', 'Stands off'],
          rows: values.map((value, at) => [
            formatValue(((atEpochMs[at] ?? first) - first) / dayMs, 2),
            formatValue(value, options.decimals),
            off.has(at) ? 'yes' : '',
          ]),
        },
      }
    },
  )
