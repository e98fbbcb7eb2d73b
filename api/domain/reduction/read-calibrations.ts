import { groupBy } from '../group-by.ts'
import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow, CalibrationStepRow, Sensor } from '../site/tables.ts'
import { siteTables } from '../site/tables.ts'
import { isSameUnit, unitSymbol } from '../units.ts'
import { barometerAt, barometersOf } from './barometer-in-force.ts'
import type { Calibration, CalibrationStep } from './chain.ts'
import { parseStepParameters } from './parse-step-parameters.ts'
import { steps as stepsByKind } from './steps.ts'

const calibrationsFile = siteTables.calibrations.file
const stepsFile = siteTables.calibrationSteps.file

/**
 * Calibration rows and their steps as chains that `runChain` can take without a doubt: every coefficient there
 * and fit, units joining from the sensor's raw unit to its engineering unit, every companion named.
 * Every fault is reported with its record, field and reason; one fault refuses all.
 */
export function readCalibrations(
  model: Pick<SiteModel, 'calibrations' | 'calibrationSteps' | 'sensors' | 'sensorBarometers'>,
): Outcome<readonly Calibration[]> {
  const sensors = new Map(model.sensors.map((sensor) => [sensor.id, sensor]))
  const barometers = barometersOf(model.sensorBarometers)
  const rowsByCalibration = groupBy(model.calibrationSteps, (row) => row.calibration)
  const issues: Issue[] = []
  const calibrations = model.calibrations.map((row): Calibration => {
    const rows = (rowsByCalibration.get(row.id) ?? []).toSorted((one, other) => one.step - other.step)
    const steps: CalibrationStep[] = []
    for (const stepRow of rows) {
      const parsed = parseStepParameters(stepRow.kind, stepRow.parameters ?? '')
      if (parsed.ok) steps.push({ kind: stepRow.kind, parameters: parsed.value })
      else issues.push(...parsed.issues.map((issue) => inStep(stepRow, issue)))
    }
    issues.push(...numberingFaults(row, rows))
    const sensor = sensors.get(row.sensor)
    if (!sensor) issues.push(noSensor(row))
    else if (steps.length === rows.length && rows.length > 0)
      issues.push(
        ...joinFaults(row, steps, {
          ...sensor,
          barometerSensor: barometerAt(barometers(sensor), row.validFrom).barometer,
        }),
      )
    return {
      id: row.id,
      sensor: row.sensor,
      version: row.version,
      validFromEpochMs: row.validFrom,
      certificate: row.certificate,
      standardUncertainty: row.standardUncertainty,
      steps,
    }
  })
  issues.push(...versionFaults(model.calibrations))
  return issues.length > 0 ? reject(...issues) : accept(calibrations)
}

const inStep = (row: CalibrationStepRow, issue: Issue): Issue => ({
  ...issue,
  file: stepsFile,
  message: `Calibration ${row.calibration}, step ${row.step} (${row.kind}): ${issue.message}`,
})

function numberingFaults(row: CalibrationRow, rows: readonly CalibrationStepRow[]): readonly Issue[] {
  if (rows.length === 0)
    return [
      {
        code: 'steps-missing',
        file: stepsFile,
        column: 'calibration',
        value: row.id,
        message: `Calibration ${row.id} has no steps. Add its chain to ${stepsFile}; a reading that is already in its engineering unit takes one step of kind unit, from and to the same.`,
      },
    ]
  const wrong = rows.find((stepRow, index) => stepRow.step !== index + 1)
  return wrong
    ? [
        {
          code: 'steps-not-in-order',
          file: stepsFile,
          column: 'step',
          value: String(wrong.step),
          expected: '1, 2, 3 … without a gap or a repeat',
          message: `Calibration ${row.id} numbers its steps ${rows.map(({ step }) => step).join(', ')}. Number them 1, 2, 3 … so that none is missing.`,
        },
      ]
    : []
}

const noSensor = (row: CalibrationRow): Issue => ({
  code: 'sensor-unknown',
  file: calibrationsFile,
  column: 'sensor',
  value: row.sensor,
  message: `Calibration ${row.id} is of sensor ${row.sensor}, which is not in ${siteTables.sensors.file}. Correct the name or add the sensor.`,
})

function joinFaults(
  row: CalibrationRow,
  steps: readonly CalibrationStep[],
  sensor: Sensor,
): readonly Issue[] {
  const issues: Issue[] = []
  let unit = sensor.rawUnit
  for (const [index, { kind, parameters }] of steps.entries()) {
    const step = stepsByKind[kind]
    const place = `Calibration ${row.id}, step ${index + 1} (${kind})`
    const wanted = step.unitIn(parameters)
    if (wanted !== null && !isSameUnit(wanted, unit))
      issues.push({
        code: 'units-do-not-join',
        file: stepsFile,
        column: 'kind',
        value: kind,
        expected: unitSymbol(wanted),
        message: `${place} needs ${unitSymbol(wanted)} but is given ${unitSymbol(unit)}${index === 0 ? `, the raw unit of ${sensor.id}` : ` by the step before it`}. Correct the unit or put the missing step before it.`,
      })
    if (kind === 'barometric' && sensor.venting === 'vented')
      issues.push({
        code: 'vented-with-barometric-term',
        file: siteTables.sensors.file,
        column: 'venting',
        value: 'vented',
        expected: 'sealed, or a calibration without a barometric step',
        message: `${place} takes air pressure out of ${sensor.id}, but a vented sensor feels none: it would be corrected twice. Take the step out, or correct venting in ${siteTables.sensors.file}.`,
      })
    if (step.needs === 'barometerKpa' && sensor.barometerSensor === null)
      issues.push(noCompanion(place, sensor, 'barometerSensor', 'a barometer'))
    if (step.needs === 'temperatureDegC' && sensor.temperatureSensor === null)
      issues.push(noCompanion(place, sensor, 'temperatureSensor', 'a temperature'))
    unit = step.unitOut(parameters, unit)
  }
  if (!isSameUnit(unit, sensor.unit))
    issues.push({
      code: 'units-do-not-join',
      file: stepsFile,
      column: 'parameters',
      value: unit,
      expected: unitSymbol(sensor.unit),
      message: `Calibration ${row.id} ends in ${unitSymbol(unit)} but ${sensor.id} is given in ${unitSymbol(sensor.unit)}. Correct the last step's unit, add a unit step, or correct the sensor.`,
    })
  return issues
}

const noCompanion = (place: string, sensor: Sensor, column: string, what: string): Issue => ({
  code: 'companion-not-named',
  file: siteTables.sensors.file,
  column,
  value: '',
  expected: `the sensor that gives ${what}`,
  message: `${place} needs ${what}, but ${sensor.id} names no ${column}. Name one in ${siteTables.sensors.file}, or take the step out.`,
})

function versionFaults(rows: readonly CalibrationRow[]): readonly Issue[] {
  const seen = new Map<string, CalibrationRow>()
  return rows.flatMap((row) => {
    const key = `${row.sensor} version ${row.version}`
    const earlier = seen.get(key)
    seen.set(key, row)
    return earlier
      ? [
          {
            code: 'version-repeated',
            file: calibrationsFile,
            column: 'version',
            value: String(row.version),
            message: `Calibrations ${earlier.id} and ${row.id} are both version ${row.version} of ${row.sensor}. Give the later one the next number.`,
          },
        ]
      : []
  })
}
