import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import type {
  Instrument,
  Location,
  MeasuringPoint,
  SpiralSurveyRow,
  StratumLayer,
} from '#domain/site/tables.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { instrumentRow, pointRow, sensorRow } from '../domain/reduction/sample-bundles.ts'

/** One reading of a measuring point, reduced; null: not read. */
export interface MeasuredPoint extends Partial<MeasuringPoint> {
  readonly id: string
  readonly read: Readonly<Partial<Record<Measure, number | null>>>
}

/** Values of every series that an instrument derives from its points at one instant, as when they are published. */
export function deriveMeasured(given: {
  readonly instrument: Partial<Instrument> & Pick<Instrument, 'kind'>
  readonly location?: Partial<Location>
  readonly strata?: readonly StratumLayer[]
  readonly spiralSurveys?: readonly SpiralSurveyRow[]
  readonly points: readonly MeasuredPoint[]
  /** Points of other instruments, such as a surveyed head. */
  readonly others?: readonly MeasuredPoint[]
  readonly unit?: string
  readonly waterUnitWeightKnPerM3?: number
}): Readonly<Record<string, number | null>> {
  const { instrument, points, others = [], unit = 'mm' } = given
  const all = [...points, ...others]
  const location: Location = {
    id: 'I-place',
    kind: 'hole',
    eastingMetres: 0,
    northingMetres: 0,
    collarLevelMetres: 0,
    azimuthDegrees: 0,
    dipDegrees: 90,
    lengthMetres: 100,
    surveyedAt: 0,
    surveyedBy: 'surveyor',
    ...given.location,
  }
  const made = derivedBundles({
    instruments: [{ ...instrumentRow('I', instrument.kind), ...instrument }],
    points: all.map(({ read: _, ...point }) => ({
      ...pointRow(point.id, points.some(({ id }) => id === point.id) ? 'I' : 'other', 0),
      ...point,
    })),
    sensors: all.flatMap(({ id, read }) =>
      (Object.keys(read) as Measure[]).map((measure) =>
        sensorRow(
          id,
          measure,
          measure === 'temperature' ? 'degC' : others.some((other) => other.id === id) ? 'mm' : unit,
        ),
      ),
    ),
    locations: [location],
    strata: given.strata ?? [],
    spiralSurveys: given.spiralSurveys ?? [],
    ...(given.waterUnitWeightKnPerM3 === undefined
      ? {}
      : { waterUnitWeightKnPerM3: given.waterUnitWeightKnPerM3 }),
  })
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  const values = new Map(
    all.flatMap(({ id, read }) =>
      Object.entries(read).map(([measure, value]) => [`${id}/${measure}`, { value, quality: 0 }] as const),
    ),
  )
  return Object.fromEntries(
    made.value.flatMap((bundle) => {
      const derived = deriveValues(bundle, values)
      return bundle.outputs.map(({ id }, index) => [id, derived[index]?.value ?? null])
    }),
  )
}
