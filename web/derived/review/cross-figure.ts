import type { CrossPlot } from '#domain/review/cross-plot.ts'
import type { PairedReadings, ReadingPair } from '#domain/review/pair-readings.ts'
import type { Trace } from '#domain/review/review-case.ts'
import { unitSymbol } from '#domain/units.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { measureNames } from '../../ui/kind-names.ts'
import type { FigureAxis, FigureProps } from '../../views/figure/figure-props.ts'
import { plainNumber, signedNumber, withInterval } from './interval-text.ts'

/** How readings of two series were brought together, as `state/paired-how.ts` has it. */
interface PairedHow {
  readonly by: 'nearest' | 'hour' | 'day'
  readonly mostApartMinutes: number
  readonly lagHours: number
}

/** So few points have room for the bars of both uncertainties. */
const mostWithBars = 60
/** More dots only hide each other. */
const mostDrawn = 1500

/** One series against another: pairs from light (early) to dark (late), joined in order of time, with the robust line. */
export function crossFigure(
  [x, y]: readonly [Trace, Trace],
  paired: PairedReadings,
  plot: CrossPlot,
  how: PairedHow,
  { decimals, timeZone }: { readonly decimals: readonly [number, number]; readonly timeZone: string },
): FigureProps {
  const { pairs } = paired
  const every = Math.ceil(pairs.length / mostDrawn)
  const last = pairs.length - 1
  const drawn = pairs.filter((_, place) => place % every === 0 || place === last)
  const instant = (at: number) => formatShortInstant(at, timeZone)
  const bars = drawn.length <= mostWithBars
  const share = how.by === 'nearest' ? 1 : 0
  const half = ({ standardUncertainty }: Trace) =>
    bars && standardUncertainty !== null ? 1.96 * standardUncertainty : null
  const [barX, barY] = [half(x), half(y)]
  const lag =
    how.lagHours === 0
      ? ''
      : `, read ${plainNumber(Math.abs(how.lagHours))} h ${how.lagHours > 0 ? 'later' : 'earlier'}`
  const first = pairs[0]
  const end = pairs[last]
  return {
    title: `${nameOf(y)} against ${nameOf(x)}.`,
    x: axis(x, decimals[0], ''),
    y: axis(y, decimals[1], lag),
    bands: bandOf(pairs, plot),
    curves: [
      { name: 'in order of time', style: 'order', places: drawn.map((one) => [one.x, one.y]) },
      ...lineOf(pairs, plot),
    ],
    points: drawn.map((one, place) => ({
      choice: null,
      name: place === 0 ? 'start' : place === drawn.length - 1 ? 'end' : '',
      place: [one.x, one.y],
      halfBar: barY,
      halfBarAcross: barX,
      leftOut: false,
      shade: drawn.length < 2 ? 1 : place / (drawn.length - 1),
      ...(place === 0
        ? { end: 'start' as const }
        : place === drawn.length - 1
          ? { end: 'end' as const }
          : {}),
      says: `${instant(one.atEpochMs)}: ${plainNumber(one.x, 4)} ${unitSymbol(x.unit)}, ${plainNumber(one.y, 4)} ${unitSymbol(y.unit)}.`,
    })),
    rules: [],
    selected: null,
    timeZone,
    shadeKey:
      first && end
        ? `${drawn.length} pairs, light ${instant(first.atEpochMs)} to dark ${instant(end.atEpochMs)}${bars && share === 1 && (barX ?? barY) !== null ? ', bars of 95 %' : ''}`
        : '',
    table: {
      caption: `${nameOf(y)} against ${nameOf(x)}`,
      headings: ['When', `${nameOf(x)}, ${unitSymbol(x.unit)}`, `${nameOf(y)}, ${unitSymbol(y.unit)}`],
      rows: pairs.map((one) =>
        [instant(one.atEpochMs), one.x.toFixed(decimals[0]), one.y.toFixed(decimals[1])].map((text) =>
          text.replace(/^-/, '−'),
        ),
      ),
    },
    remarks: remarksOf([x, y], paired, plot, how, every > 1 ? drawn.length : null),
    message:
      pairs.length === 0
        ? 'No two readings belong together: take a longer stretch, a greater age, or means.'
        : null,
  }
}

const nameOf = ({ point, measure }: Trace) => `${point} ${measureNames[measure].toLowerCase()}`

const axis = (trace: Trace, decimals: number, more: string): FigureAxis => ({
  name: `${nameOf(trace)}${more}`,
  unit: trace.unit,
  scale: 'even',
  reversed: false,
  decimals,
  including: [],
})

function lineOf(pairs: readonly ReadingPair[], { line }: CrossPlot): FigureProps['curves'] {
  if (!line || !Number.isFinite(line.slope)) return []
  const [low, high] = extremes(pairs)
  return [
    {
      name: 'robust line',
      style: 'fitted',
      places: [low, high].map((x) => [x, line.intercept + line.slope * x] as const),
    },
  ]
}

/** Lines of the least and greatest slope through the middle of the pairs. */
function bandOf(pairs: readonly ReadingPair[], { line, middle }: CrossPlot): FigureProps['bands'] {
  if (!line?.slopeInterval || !middle) return []
  const [least, most] = line.slopeInterval
  const atMiddle = line.intercept + line.slope * middle.x
  const [low, high] = extremes(pairs)
  return [
    {
      name: '95 % of its slope',
      places: [low, middle.x, high].map((x) => {
        const ends = [atMiddle + least * (x - middle.x), atMiddle + most * (x - middle.x)]
        return [x, Math.min(...ends), Math.max(...ends)] as const
      }),
    },
  ]
}

const extremes = (pairs: readonly ReadingPair[]): readonly [number, number] => [
  Math.min(...pairs.map(({ x }) => x)),
  Math.max(...pairs.map(({ x }) => x)),
]

function remarksOf(
  [x, y]: readonly [Trace, Trace],
  { pairs, leftOutX, leftOutY }: PairedReadings,
  { line, correlation, rank, linePairs, independentPairs }: CrossPlot,
  { by, mostApartMinutes }: PairedHow,
  drawn: number | null,
): readonly string[] {
  const what = by === 'nearest' ? 'readings' : by === 'hour' ? 'means of an hour' : 'means of a day'
  const unit = `${unitSymbol(y.unit)} a ${unitSymbol(x.unit)}`
  return [
    `${pairs.length} pairs of ${what}${by === 'nearest' ? ` at most ${mostApartMinutes} min apart` : ''}; left out without a partner: ${leftOutX} of ${nameOf(x)}, ${leftOutY} of ${nameOf(y)}.${drawn === null ? '' : ` ${drawn} of them are drawn, evenly in time.`}`,
    line?.slopeInterval
      ? `Robust line (Theil and Sen) through ${linePairs} pairs, of which ${Math.round(independentPairs)} count as independent: ${withInterval(line.slope, ...line.slopeInterval)} ${unit}, 95 %. ${nameOf(x)} is taken as exact. A loop shows in the order of the points, not in the line.`
      : 'Too few pairs that differ for a line with an interval.',
    ...(correlation
      ? [
          `Correlation of the values themselves ${signedNumber(correlation.correlation, 2)} (${signedNumber(correlation.interval[0], 2)} to ${signedNumber(correlation.interval[1], 2)}), of their ranks ${rank ? signedNumber(rank.correlation, 2) : 'not told'}. What drifts alike goes together without one causing the other.`,
        ]
      : []),
  ]
}
