import type { GroundSurface } from '#domain/ground/ground-surface.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, figure, usedPoint } from './analysis-frame.ts'

/** Every place as read beside what all the others say of it; null where the surface has no such check. */
export function leftOutFigure(surface: GroundSurface, options: AnalysisFigureOptions): FigureProps | null {
  const { check, unit } = surface
  if (check === null) return null
  const values = check.points.flatMap(({ observed, estimate }) => [observed, estimate])
  const [low, high] = [Math.min(...values), Math.max(...values)]
  return figure(
    options,
    {
      x: axis('Told by the others', unit, { decimals: 1 }),
      y: axis('As read', unit, { decimals: 1 }),
    },
    {
      curves: [
        {
          name: 'alike',
          style: 'fitted',
          places: [
            [low, low],
            [high, high],
          ],
        },
      ],
      points: check.points.map(({ ids, observed, estimate, standardised }) =>
        usedPoint(
          Math.abs(standardised) > 2 ? ids.join(' and ') : '',
          [estimate, observed],
          `${ids.join(' and ')}: read ${formatValue(observed, 1)} ${unit}, told by the others ${formatValue(estimate, 1)} ${unit}, ${formatValue(Math.abs(standardised), 1)} standard deviations apart`,
          { choice: ids[0] ?? null },
        ),
      ),
      table: {
        caption: `Each place left out in turn, ${unit}`,
        headings: ['Place', 'As read', 'Told by the others', 'Apart, standard deviations'],
        rows: check.points.map(({ ids, observed, estimate, standardised }) => [
          ids.join(' and '),
          formatValue(observed, 2),
          formatValue(estimate, 2),
          formatValue(standardised, 2),
        ]),
      },
      remarks: [check.sentence],
    },
  )
}

/** The surface along the section line with its interval of 95 %; null without a line. */
export function surfaceSectionFigure(
  { section, unit }: GroundSurface,
  options: AnalysisFigureOptions,
  downwards: boolean,
): FigureProps | null {
  if (section.length === 0) return null
  const known = section.flatMap(({ chainageMetres, value, standardDeviation }) =>
    value === null || standardDeviation === null
      ? []
      : [[chainageMetres, value - 1.96 * standardDeviation, value + 1.96 * standardDeviation] as const],
  )
  const shown = section.some(({ value }) => value !== null)
  return figure(
    options,
    {
      x: axis('Along the section line', 'm'),
      y: axis('Surface', unit, { reversed: downwards, decimals: 1, including: downwards ? [0] : [] }),
    },
    {
      curves: [
        {
          name: 'surface',
          style: 'fitted',
          places: section.map(({ chainageMetres, value }) =>
            value === null ? null : [chainageMetres, value],
          ),
        },
      ],
      bands:
        known.length > 1 && known.length === section.length
          ? [{ name: 'interval of 95 %', places: known }]
          : stretches(section),
      table: {
        caption: `Surface along the line, ${unit}`,
        headings: ['Chainage, m', 'Surface', 'Standard deviation'],
        rows: section.map(({ chainageMetres, value, standardDeviation }) => [
          formatValue(chainageMetres, 1),
          formatValue(value, 2),
          formatValue(standardDeviation, 2),
        ]),
      },
      message: shown ? null : 'The line crosses nothing of the surface that is shown.',
    },
  )
}

/** A band for each stretch of the line over which the surface is known; only the first is named in the key. */
function stretches(section: GroundSurface['section']): FigureProps['bands'] {
  const bands: { name: string; places: (readonly [number, number, number])[] }[] = []
  let open = false
  for (const { chainageMetres, value, standardDeviation } of section) {
    if (value === null || standardDeviation === null) {
      open = false
      continue
    }
    if (!open) bands.push({ name: bands.length === 0 ? 'interval of 95 %' : '', places: [] })
    open = true
    bands
      .at(-1)
      ?.places.push([chainageMetres, value - 1.96 * standardDeviation, value + 1.96 * standardDeviation])
  }
  return bands.filter(({ places }) => places.length > 1)
}
