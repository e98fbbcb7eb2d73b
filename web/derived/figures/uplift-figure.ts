import type { Uplift } from '#domain/ground/uplift.ts'
import type { Outcome } from '#domain/outcome.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, figureOf, usedPoint } from './analysis-frame.ts'

/** Share of the weight that the pressure takes, for every formation level with the pressure as it is now. */
export const upliftFigure = (
  outcome: Outcome<Uplift>,
  formationLevelMetres: number,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Formation level', 'm', { reversed: true }),
      y: axis('Pore pressure over total stress', '', { decimals: 2, including: [0, 1] }),
    },
    ({ atFormation, shareOfStress, remarks }) => ({
      curves: [
        {
          name: 'with the pressure as it is now',
          style: 'fitted',
          places: atFormation
            .filter(({ share }) => share < 2.5)
            .map(({ levelMetres, share }) => [levelMetres, share] as const),
        },
      ],
      points: [
        usedPoint(
          formatValue(shareOfStress, 2),
          [formationLevelMetres, shareOfStress],
          `At a formation of ${formatValue(formationLevelMetres, 1)} m: ${formatValue(shareOfStress, 2)}`,
        ),
      ],
      rules: [{ across: 'y', at: 1, name: 'pressure equals weight, no factor in it' }],
      table: {
        caption: 'Share of the weight that the pressure takes',
        headings: ['Formation level, m', 'Share'],
        rows: atFormation.map(({ levelMetres, share }) => [
          formatValue(levelMetres, 1),
          formatValue(share, 2),
        ]),
      },
      remarks,
    }),
  )
