import type { EfficiencyEstimate } from '#domain/ground/efficiency-estimate.ts'
import { unitWeightOfWaterKnPerM3 } from '#domain/reduction/hydrostatics.ts'
import { formatValue } from '../ui/format-value.ts'
import type { FigureAxis, FigureProps } from '../views/figure/figure-props.ts'
import { efficiencyText } from './efficiency-sentences.ts'

/** Changes over a day of an open well's level, as pressure, over those of the air, with the line whose slope is minus the efficiency. */
export function efficiencyFigure(estimate: EfficiencyEstimate, point: string, timeZone: string): FigureProps {
  const kpa = (metres: number) => metres * unitWeightOfWaterKnPerM3
  const air = estimate.changes.airMetres.map(kpa)
  const level = estimate.changes.levelMetres.map(kpa)
  const mean = air.reduce((sum, rise) => sum + rise, 0) / air.length
  const middle = kpa(estimate.driftMetres) - estimate.efficiency * mean
  const along = (efficiency: number, x: number) => middle - efficiency * (x - mean)
  const ends = [Math.min(...air), mean, Math.max(...air)]
  const [low, high] = estimate.interval
  return {
    title: `Change over a day of an open well's level at ${point} against change of air pressure; efficiency ${efficiencyText(estimate)}.`,
    x: axis('Change of air pressure over a day'),
    y: axis('Change of the open well over a day'),
    bands: [
      {
        name: '95 % interval of the line',
        places: ends.map((x) => {
          const edges = [along(low, x), along(high, x)]
          return [x, Math.min(...edges), Math.max(...edges)] as const
        }),
      },
    ],
    curves: [
      {
        name: `fitted, slope ${formatValue(-estimate.efficiency, 3)}`,
        style: 'fitted',
        places: ends.map((x) => [x, along(estimate.efficiency, x)] as const),
      },
    ],
    points: air.map((x, at) => ({
      choice: null,
      name: '',
      place: [x, level[at] ?? 0] as const,
      halfBar: null,
      leftOut: false,
      says: `Air ${formatValue(x, 3)} kPa, open well ${formatValue(level[at] ?? 0, 3)} kPa.`,
    })),
    rules: [],
    selected: null,
    timeZone,
    table: {
      caption: `Changes over a day, ${point}`,
      headings: ['Air pressure, kPa', 'Open well, kPa', 'Fitted, kPa'],
      rows: air.map((x, at) => [
        formatValue(x, 3),
        formatValue(level[at] ?? 0, 3),
        formatValue(along(estimate.efficiency, x), 3),
      ]),
    },
    remarks: [],
    message: null,
  }
}

const axis = (name: string): FigureAxis => ({
  name,
  unit: 'kPa',
  scale: 'even',
  reversed: false,
  decimals: 2,
  including: [0],
})
