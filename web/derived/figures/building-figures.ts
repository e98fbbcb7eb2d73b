import type { FacadeResponse } from '#domain/ground/facade-response.ts'
import { settlementAt, type Trough } from '#domain/ground/trough.ts'
import type { BuildingResponse } from '#domain/ground/troughs/building-response.ts'
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
  settlementAxis,
  usedPoint,
} from './analysis-frame.ts'

/** A wall on the ground of a trough, with the chord of each part that bends one way. */
export const buildingFigure = (
  outcome: Outcome<BuildingResponse>,
  trough: Trough,
  options: AnalysisFigureOptions,
): FigureProps =>
  figureOf(
    outcome,
    options,
    {
      x: axis('Offset from the middle of the trough, right positive', 'm', { including: [0] }),
      y: settlementAxis,
    },
    ({ parts, ...analysis }) => {
      const ends = parts.flatMap(({ fromOffsetMetres, toOffsetMetres }) => [fromOffsetMetres, toOffsetMetres])
      const [from, to] = [Math.min(...ends), Math.max(...ends)]
      const on = (offset: number) => [offset, settlementAt(trough, offset)] as const
      return {
        curves: [
          { name: 'ground under the wall', style: 'predicted', places: evenly(from, to, 101).map(on) },
          {
            name: 'straight between the ends of each part',
            style: 'limit',
            places: parts.flatMap(({ fromOffsetMetres, toOffsetMetres }) => [
              on(fromOffsetMetres),
              on(toOffsetMetres),
              null,
            ]),
          },
        ],
        rules: parts.map(({ mode, greatestDeflectionAtMetres, greatestDeflectionMm }) => ({
          across: 'x' as const,
          at: greatestDeflectionAtMetres,
          name: `${mode}, ${cell(greatestDeflectionMm, 2)} mm`,
        })),
        table: {
          caption: 'Parts of the wall; categories are guidance',
          headings: [
            'Part',
            'Length, m',
            'Deflection, mm',
            'Deflection ratio, mm/m',
            'Horizontal strain, mm/m',
            'Critical strain, %',
            'Category',
          ],
          rows: parts.map((part) => [
            part.mode,
            cell(part.toOffsetMetres - part.fromOffsetMetres, 1),
            cell(part.greatestDeflectionMm, 2),
            cell(1000 * part.deflectionRatio, 3),
            cell(1000 * part.meanHorizontalStrain, 3),
            cell(100 * part.criticalStrain, 3),
            `${part.guidance.category}${part.guidance.onBoundary ? ', on the line to the next' : ''}`,
          ]),
        },
        remarks: remarksOf(analysis),
      }
    },
  )

/** Levelled points along a façade, with the straight lines under the whole and under the parts that bend most. */
export const facadeFigure = (outcome: Outcome<FacadeResponse>, options: AnalysisFigureOptions): FigureProps =>
  figureOf(
    outcome,
    options,
    { x: axis('Along the façade', 'm'), y: settlementAxis },
    ({ distortion, slopes, sagging, hogging, ...found }) => {
      const along = found.used.map((point, at) => ({
        ...point,
        deflectionMm: distortion.deflectionsMm[at] ?? null,
        slope: slopes[at] ?? null,
      }))
      const placeOf = (at: number) =>
        along
          .slice(at, at + 1)
          .map(({ chainageMetres, settlementMm }) => [chainageMetres, settlementMm] as const)
      const parts = [sagging, hogging].flatMap((part) => part ?? [])
      return {
        curves: [
          { name: 'measured', style: 'measured', places: along.flatMap((_, at) => placeOf(at)) },
          {
            name: 'straight between the ends',
            style: 'limit',
            places: [...placeOf(0), ...placeOf(along.length - 1)],
          },
          ...parts.map(({ mode, from, to }) => ({
            name: `straight under the part most ${mode}`,
            style: 'predicted' as const,
            places: [...placeOf(from), ...placeOf(to)],
          })),
        ],
        points: [
          ...along.map(({ id, chainageMetres, settlementMm, deflectionMm, standardUncertaintyMm }) =>
            usedPoint(
              id,
              [chainageMetres, settlementMm],
              `${id}: ${cell(settlementMm, 1)} mm, ${cell(deflectionMm, 1)} mm from the straight line.`,
              { choice: id, halfBar: halfBarOf(standardUncertaintyMm) },
            ),
          ),
          ...leftOutPoints(
            found.leftOut,
            ({ id }) => id,
            ({ chainageMetres, settlementMm }) => [chainageMetres, settlementMm],
            ({ id }) => id,
          ),
        ],
        table: {
          caption: 'Settlement along the façade',
          headings: [
            'Point',
            'Along, m',
            'Settlement, mm',
            'Standard uncertainty, mm',
            'From the straight line, mm',
            'Slope to the next, mm/m',
            'Its standard error, mm/m',
            'Angular distortion to the next, mm/m',
            'Left out',
          ],
          rows: [
            ...along.map(
              ({ id, chainageMetres, settlementMm, standardUncertaintyMm, deflectionMm, slope }, at) => [
                id,
                cell(chainageMetres, 2),
                cell(settlementMm, 2),
                cell(standardUncertaintyMm, 2),
                cell(deflectionMm, 2),
                cell(slope?.value ?? null, 3),
                cell(slope?.standardError ?? null, 3),
                cell(distortion.angularDistortionMmPerM[at] ?? null, 3),
                '',
              ],
            ),
            ...found.leftOut.map(({ item, reason }) => [
              item.id,
              cell(item.chainageMetres, 2),
              cell(item.settlementMm, 2),
              cell(item.standardUncertaintyMm, 2),
              '–',
              '–',
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
