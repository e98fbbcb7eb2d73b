import { accept, type Issue, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, type MeasuringPoint, siteTables } from '../../site/tables.ts'
import { type ColumnLiquid, liquidDensity } from '../liquid-density.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import { withReservoir } from '../rules/liquid-column.ts'
import { instrumentIssue, type PlanSite, pace, sensorsOf, unitFaults } from './plan-site.ts'
import { surveyedSlot } from './surveyed-slot.ts'

/**
 * Settlement of cells against their reservoir, from the pressure and temperature of the liquid at each and, where one
 * sensor of the instrument reads it, the drop of the liquid in the reservoir; without it the reservoir is taken to stay
 * full, and the series says so. Where the reservoir is surveyed, their settlement too. Nothing where no cell reads a
 * pressure of its liquid.
 */
export function planLiquidColumn(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const points = site.points.filter((point) => point.instrument === instrument.id)
  const pressures = sensorsOf(points, site, 'liquid-pressure')
  if (pressures.length === 0) return accept([])
  const drops = sensorsOf(points, site, 'reservoir-drop')
  if (drops.length > 1)
    return reject(
      instrumentIssue(
        instrument,
        'id',
        'one-reservoir-expected',
        'one sensor of reservoir-drop',
        `${instrument.id} has ${drops.length} sensors of reservoir-drop; its cells hang on one reservoir. Make an instrument of each reservoir.`,
      ),
    )
  const reservoir =
    (instrument.surveyedPoint ?? null) === null ? null : surveyedSlot(instrument, site, 'settlement')
  if (reservoir && !reservoir.ok) return reservoir
  const faults: Issue[] = [
    ...unitFaults(instrument, pressures, 'kPa'),
    ...unitFaults(instrument, drops, 'mm'),
  ]
  const bundles = pressures.flatMap((pressure): readonly DerivedBundle[] => {
    const point = points.find(({ id }) => id === pressure.point)
    const temperature = point && sensorsOf([point], site, 'temperature')[0]
    const zeroPressureKpa = point?.zeroPressureKpa ?? null
    const zeroTemperatureDegC = point?.zeroTemperatureDegC ?? null
    const liquid = liquidOf(instrument, zeroTemperatureDegC)
    if (!point || !temperature || zeroPressureKpa === null || zeroTemperatureDegC === null || !liquid) {
      faults.push(whyNone(instrument, point, temperature === undefined, liquid === null))
      return []
    }
    if (!(liquidDensity(liquid, zeroTemperatureDegC) > 0)) {
      faults.push(
        pointIssue(
          point,
          'zeroTemperatureDegC',
          '0 to 40',
          `${point.id} is filled with water, whose density is known from 0 to 40 °C, but had ${zeroTemperatureDegC} °C at zero. Correct it, or state the density and expansion of its liquid.`,
        ),
      )
      return []
    }
    faults.push(...unitFaults(instrument, [temperature], 'degC'))
    const sensors = [pressure, temperature, ...drops]
    return [
      {
        instrument: instrument.id,
        rule: { kind: 'liquid-column', zeroPressureKpa, zeroTemperatureDegC, liquid },
        slots: [
          ...sensors.map(({ id, point }) => ({
            point,
            depthMetres: 0,
            series: [id],
            maximumAgeMinutes: null,
          })),
          ...(reservoir ? [reservoir.value] : []),
        ],
        outputs: [
          {
            id: `${point.id}/relative-settlement`,
            point: point.id,
            measure: 'relative-settlement',
            unit: 'mm',
            decimals: 2,
            positiveMeans: `settlement, downwards, against the reservoir${drops.length > 0 ? '' : ', whose liquid is taken to stay at its level'}`,
            of: 'whole',
          },
          ...(reservoir
            ? [
                {
                  id: `${point.id}/settlement`,
                  point: point.id,
                  measure: 'settlement' as const,
                  unit: 'mm',
                  decimals: 2,
                  positiveMeans: `settlement, downwards: against the reservoir, and that of the reservoir, surveyed at ${reservoir.value.point}`,
                  of: withReservoir,
                },
              ]
            : []),
        ],
        ...pace(sensors),
      },
    ]
  })
  return faults.length > 0 ? reject(...faults) : accept(bundles)
}

function liquidOf(
  { liquidDensityKgPerM3, liquidExpansionPerKelvin }: Instrument,
  zeroTemperatureDegC: number | null,
): ColumnLiquid | null {
  if (liquidDensityKgPerM3 == null) return liquidExpansionPerKelvin == null ? { kind: 'water' } : null
  if (liquidExpansionPerKelvin == null) return null
  return {
    kind: 'expanding',
    densityKgPerM3: liquidDensityKgPerM3,
    zeroTemperatureDegC: zeroTemperatureDegC ?? 0,
    expansionPerKelvin: liquidExpansionPerKelvin,
  }
}

function whyNone(
  instrument: Instrument,
  point: MeasuringPoint | undefined,
  noTemperature: boolean,
  noLiquid: boolean,
): Issue {
  if (noLiquid)
    return instrumentIssue(
      instrument,
      instrument.liquidDensityKgPerM3 == null ? 'liquidDensityKgPerM3' : 'liquidExpansionPerKelvin',
      'liquid-incomplete',
      'density and expansion, or neither for water',
      `${instrument.id} states one of the density and the expansion of its liquid. Give both, or leave both empty for water.`,
    )
  const id = point?.id ?? instrument.id
  if (noTemperature)
    return {
      code: 'liquid-without-temperature',
      file: siteTables.points.file,
      column: 'id',
      value: id,
      expected: 'a sensor of temperature',
      message: `${id} reads the pressure of its liquid but not its temperature, so its density is not known. Add the sensor; the column is never taken at another temperature.`,
    }
  const column = point?.zeroPressureKpa == null ? 'zeroPressureKpa' : 'zeroTemperatureDegC'
  return {
    code: 'liquid-zero-expected',
    file: siteTables.points.file,
    column,
    value: '',
    expected: 'pressure and temperature at zero',
    message: `${id} has no pressure and temperature of its liquid at zero. Give zeroPressureKpa and zeroTemperatureDegC.`,
  }
}

const pointIssue = (
  point: MeasuringPoint,
  column: keyof MeasuringPoint & string,
  expected: string,
  message: string,
): Issue => ({
  code: 'liquid-zero-expected',
  file: siteTables.points.file,
  column,
  value: String(point[column] ?? ''),
  expected,
  message,
})
