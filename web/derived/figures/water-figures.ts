import type { PhreaticSection } from '#domain/ground/groundwater/water-line.ts'
import type { WaterPlane } from '#domain/ground/groundwater/water-plane.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FigureCurve, FigureProps } from '../../views/figure/figure-props.ts'
import {
  type AnalysisFigureOptions,
  axis,
  cell,
  figure,
  figureOf,
  leftOutPoints,
  remarksOf,
  usedPoint,
} from './analysis-frame.ts'

/** Wells in plan with the arrow of falling level; two more strokes bound its direction, where it is known how well. */
export const gradientFigure = (outcome: Outcome<WaterPlane>, options: AnalysisFigureOptions): FigureProps =>
  figureOf(outcome, options, planAxes(outcome), (plane) => {
    const eastings = plane.used.map(({ eastingMetres }) => eastingMetres)
    const northings = plane.used.map(({ northingMetres }) => northingMetres)
    const middle = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length
    const from = [middle(eastings), middle(northings)] as const
    const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values)
    const length = Math.hypot(spread(eastings), spread(northings)) / 3
    const along = (azimuthDegrees: number, metres: number, start = from) => {
      const radians = (azimuthDegrees * Math.PI) / 180
      return [start[0] + metres * Math.sin(radians), start[1] + metres * Math.cos(radians)] as const
    }
    const azimuth = plane.flowAzimuthDegrees
    const head = along(azimuth, length)
    const half = plane.azimuthStandardErrorDegrees
    const bounds: FigureCurve[] =
      half === null
        ? []
        : [-1.96, 1.96].map((side, at) => ({
            name: at === 0 ? 'bounds of its direction, 95 %' : '',
            style: 'limit',
            places: [from, along(azimuth + side * half, length)],
          }))
    return {
      curves: [
        {
          name: `falls by 1 in ${cell(1 / plane.magnitude, 0)} towards ${cell(azimuth, 0)}°${half === null ? ', not known how well' : ` ± ${cell(1.96 * half, 0)}° (95 %)`}`,
          style: 'fitted',
          places: [
            from,
            head,
            along(azimuth + 155, length / 6, head),
            null,
            head,
            along(azimuth - 155, length / 6, head),
          ],
        },
        ...bounds,
      ],
      points: [
        ...plane.used.map(({ id, eastingMetres, northingMetres, headMetres }) =>
          usedPoint(id, [eastingMetres, northingMetres], `${id}: level ${cell(headMetres, 2)} m.`, {
            choice: id,
          }),
        ),
        ...leftOutPoints(
          plane.leftOut,
          ({ id }) => id,
          ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres],
          ({ id }) => id,
        ),
      ],
      table: {
        caption: 'Levels of the wells',
        headings: ['Well', 'Easting, m', 'Northing, m', 'Level, m', 'Left out'],
        rows: [
          ...plane.used.map((well) => [
            well.id,
            cell(well.eastingMetres, 2),
            cell(well.northingMetres, 2),
            cell(well.headMetres, 3),
            '',
          ]),
          ...plane.leftOut.map(({ item, reason }) => [
            item.id,
            cell(item.eastingMetres, 2),
            cell(item.northingMetres, 2),
            cell(item.headMetres, 3),
            reason,
          ]),
        ],
      },
      remarks: [
        ...remarksOf(plane),
        'Easting and northing are drawn over one length, yet a pane that is not square stretches the angle of the arrow: the words tell it.',
      ],
    }
  })

/** Easting and northing over one length, so that an angle is drawn nearly as it is. */
function planAxes(outcome: Outcome<WaterPlane>): Pick<FigureProps, 'x' | 'y'> {
  const used = outcome.ok ? outcome.value.used : []
  const extents = [
    used.map(({ eastingMetres }) => eastingMetres),
    used.map(({ northingMetres }) => northingMetres),
  ].map((values) => [Math.min(...values), Math.max(...values)] as const)
  const half = Math.max(...extents.map(([low, high]) => high - low)) / 2
  const [x, y] = ['Easting', 'Northing'].map((name, along) => {
    const [low, high] = extents[along] as readonly [number, number]
    const middle = (low + high) / 2
    return axis(name, 'm', { decimals: 0, including: outcome.ok ? [middle - half, middle + half] : [] })
  }) as [FigureProps['x'], FigureProps['y']]
  return { x, y }
}

/** Lines of water along a section, one a stratum, broken where none is justified. */
export function phreaticFigure(section: PhreaticSection, options: AnalysisFigureOptions): FigureProps {
  const strata = [...new Set(section.parts.map(({ stratum }) => stratum))]
  return figure(
    options,
    { x: axis('Chainage', 'm'), y: axis('Piezometric level', 'm', { decimals: 2 }) },
    {
      curves: strata.map((stratum) => ({
        name: stratum,
        style: 'measured',
        places: section.parts.flatMap(({ stratum: own, chainagesMetres, levelsMetres }) =>
          own === stratum && levelsMetres
            ? [
                [chainagesMetres[0], levelsMetres[0]] as const,
                [chainagesMetres[1], levelsMetres[1]] as const,
                null,
              ]
            : [],
        ),
      })),
      points: [
        ...section.used.map(({ id, chainageMetres, piezometricLevelMetres, stratum }) =>
          usedPoint(
            id,
            [chainageMetres, piezometricLevelMetres ?? Number.NaN],
            `${id} in ${stratum}: level ${cell(piezometricLevelMetres, 2)} m.`,
            { choice: id },
          ),
        ),
        ...leftOutPoints(
          section.leftOut,
          ({ id }) => id,
          ({ chainageMetres, piezometricLevelMetres }) => [chainageMetres, piezometricLevelMetres],
          ({ id }) => id,
        ),
      ],
      rules: section.barriers.map(({ name, chainageMetres }) => ({
        across: 'x' as const,
        at: chainageMetres,
        name,
      })),
      table: {
        caption: 'Gaps between neighbouring tips',
        headings: ['Stratum', 'From', 'To', 'Levels, m', 'Why no line is drawn'],
        rows: section.parts.map(({ stratum, from, to, levelsMetres, reason }) => [
          stratum,
          from,
          to,
          levelsMetres ? levelsMetres.map((one) => cell(one, 2)).join(' to ') : '–',
          reason ?? '',
        ]),
      },
      remarks: remarksOf(section),
      message: section.used.length === 0 ? 'No tip has a current value.' : null,
    },
  )
}
