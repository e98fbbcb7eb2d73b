import type { SettlementForecasts } from '#domain/ground/embankments/settlement-forecasts.ts'
import type { FigureCurve, FigureProps, FigureRule } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  evenly,
  figure,
  figureOf,
  leftOutPoints,
  remarksOf,
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

const dayMs = 86_400_000

/** Settlement in time with both forecasts, and the construction of equal intervals. */
export const settlementForecastFigures = (
  forecasts: SettlementForecasts,
  options: AnalysisFigureOptions,
): readonly [inTime: FigureProps, equalIntervals: FigureProps] => [
  inTimeFigure(forecasts, options),
  equalIntervalFigure(forecasts, options),
]

function inTimeFigure(forecasts: SettlementForecasts, options: AnalysisFigureOptions): FigureProps {
  const { byEqualIntervals, byHyperbola, readings, loadedAtEpochMs } = forecasts
  const instant = (days: number) => loadedAtEpochMs + days * dayMs
  const found = [byEqualIntervals, byHyperbola].flatMap((one) => (one.ok ? [one.value] : []))
  const refused = [byEqualIntervals, byHyperbola].flatMap((one) =>
    one.ok ? [] : one.issues.map(({ message }) => message),
  )
  const [either] = found
  const used = either?.used ?? []
  const last = Math.max(0, ...readings.map(({ atDays }) => atDays))
  const curves: FigureCurve[] = []
  const rules: FigureRule[] = [{ across: 'x', at: loadedAtEpochMs, name: 'end of loading' }]
  if (byHyperbola.ok) {
    const { fit, finalSettlementMm, standardErrorMm } = byHyperbola.value
    curves.push({
      name: `hyperbola, to ${cell(finalSettlementMm, 0)} mm ± ${cell(standardErrorMm, 0)} mm of scatter; comes out high`,
      style: 'predicted',
      places: evenly(0, 2 * last, 101).map(
        (days) => [instant(days), days / (fit.intercept + fit.slope * days)] as const,
      ),
    })
    rules.push({ across: 'y', at: finalSettlementMm, name: 'final by hyperbola' })
  }
  if (byEqualIntervals.ok) {
    const {
      fit,
      finalSettlementMm,
      standardErrorMm,
      intervalDays,
      stepsMm,
      used: own,
    } = byEqualIntervals.value
    const [first] = own
    const start = stepsMm[0] ?? 0
    curves.push({
      name: `equal intervals, to ${cell(finalSettlementMm, 0)} mm ± ${cell(standardErrorMm, 0)} mm of scatter; scatter makes it low`,
      style: 'fitted',
      places: evenly(first?.atDays ?? 0, 2 * last, 101).map((days) => {
        const steps = (days - (first?.atDays ?? 0)) / intervalDays
        return [instant(days), finalSettlementMm - (finalSettlementMm - start) * fit.slope ** steps] as const
      }),
    })
    rules.push({ across: 'y', at: finalSettlementMm, name: 'final by equal intervals' })
  }
  const leftOut = either
    ? either.leftOut
    : readings.map((item) => ({ item, reason: 'No forecast rests on it.' }))
  return figure(
    options,
    { x: axis('Time', '', { scale: 'instant' }), y: settlementAxis },
    {
      curves,
      rules,
      points: [
        ...used.map(({ atDays, settlementMm }) =>
          usedPoint(
            '',
            [instant(atDays), settlementMm],
            `${cell(settlementMm, 1)} mm, ${cell(atDays, 1)} days after loading.`,
          ),
        ),
        ...leftOutPoints(
          leftOut,
          () => '',
          ({ atDays, settlementMm }) => [instant(atDays), settlementMm],
        ),
      ],
      table: {
        caption: 'Readings of the forecasts',
        headings: ['Days after loading', 'Settlement, mm', 'Left out'],
        rows: [
          ...used.map(({ atDays, settlementMm }) => [cell(atDays, 1), cell(settlementMm, 2), '']),
          ...leftOut.map(({ item, reason }) => [cell(item.atDays, 1), cell(item.settlementMm, 2), reason]),
        ],
      },
      remarks: [...found.flatMap(remarksOf), ...refused],
      message: found.length === 0 ? 'Refused: no final settlement can be stated.' : null,
    },
  )
}

const equalIntervalFigure = (
  { byEqualIntervals }: SettlementForecasts,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    byEqualIntervals,
    options,
    {
      x: axis('Settlement one interval before', 'mm', { including: [0] }),
      y: axis('Settlement', 'mm', { including: [0] }),
    },
    ({ stepsMm, fit, finalSettlementMm, method }) => {
      const pairs = stepsMm.slice(1).map((after, at) => [stepsMm[at] as number, after] as const)
      const low = Math.min(...stepsMm)
      const high = Math.max(finalSettlementMm, ...stepsMm)
      return {
        curves: [
          {
            name: `fitted, slope ${cell(fit.slope, 3)} ± ${cell(fit.slopeStandardError, 3)}`,
            style: 'fitted',
            places: [low, high].map((before) => [before, fit.intercept + fit.slope * before] as const),
          },
          {
            name: 'no more settlement',
            style: 'limit',
            places: [low, high].map((same) => [same, same] as const),
          },
        ],
        points: pairs.map((pair) =>
          usedPoint('', pair, `From ${cell(pair[0], 1)} to ${cell(pair[1], 1)} mm in one interval.`),
        ),
        rules: [{ across: 'y', at: finalSettlementMm, name: 'final' }],
        table: {
          caption: 'Settlement at equal intervals',
          headings: ['One interval before, mm', 'Settlement, mm'],
          rows: pairs.map((pair) => pair.map((one) => cell(one, 2))),
        },
        remarks: [method],
      }
    },
  )
