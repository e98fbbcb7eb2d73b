import type { PatchMovement } from '#domain/review/patch-movement.ts'
import { unitSymbol } from '#domain/units.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { plainNumber } from './interval-text.ts'

/** The common movement of a patch, and every series of it since its own first value. */
export function patchFigure(
  { unit, stepMs, atEpochMs, common, members }: PatchMovement,
  what: string,
  timeZone: string,
  decimals: number,
): FigureProps {
  const first = (atEpochMs[0] ?? 0) - stepMs / 2
  return {
    title: `Common movement of the patch, ${what.toLowerCase()}.`,
    x: { name: '', unit: '', scale: 'instant', reversed: false, decimals: 0, including: [] },
    y: {
      name: `Change of ${what.toLowerCase()}`,
      unit,
      scale: 'even',
      reversed: false,
      decimals,
      including: [0],
    },
    bands: [],
    curves: [
      ...members.map(({ trace }, place) => ({
        name: place === 0 ? 'each series' : '',
        style: 'order' as const,
        places: dailyPlaces(trace.atEpochMs, trace.values, first, stepMs),
      })),
      {
        name: 'what they share (median polish)',
        style: 'fitted' as const,
        places: Array.from(common, (value, step): readonly [number, number] | null =>
          Number.isFinite(value) ? [atEpochMs[step] as number, value] : null,
        ).filter((place) => place !== null),
      },
    ],
    points: [],
    rules: [],
    selected: null,
    timeZone,
    table: {
      caption: `Common movement, ${unitSymbol(unit)}`,
      headings: ['When', 'Change'],
      rows: Array.from(common, (value, step) => [
        formatShortInstant(atEpochMs[step] as number, timeZone),
        Number.isFinite(value) ? plainNumber(value) : '–',
      ]),
    },
    remarks: [
      'The common movement is the median course of all (Tukey 1977): a few wild series do not turn it. Each is drawn from its own first value on.',
    ],
    message: null,
  }
}

/** Means over steps, less the first of them. */
function dailyPlaces(
  atEpochMs: readonly number[],
  values: readonly number[],
  fromEpochMs: number,
  stepMs: number,
): readonly (readonly [number, number])[] {
  const sums = new Map<number, { sum: number; count: number }>()
  atEpochMs.forEach((at, i) => {
    const step = Math.floor((at - fromEpochMs) / stepMs)
    const one = sums.get(step) ?? { sum: 0, count: 0 }
    sums.set(step, { sum: one.sum + (values[i] as number), count: one.count + 1 })
  })
  const means = [...sums].map(([step, { sum, count }]): readonly [number, number] => [
    fromEpochMs + (step + 0.5) * stepMs,
    sum / count,
  ])
  const base = means[0]?.[1] ?? 0
  return means.map(([at, value]) => [at, value - base] as const)
}
