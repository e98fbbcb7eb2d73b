import type { CalibrationStep } from './chain.ts'
import { givenOrDefault, textOf } from './parameter.ts'
import { quality } from './quality.ts'
import { sqlBind, sqlFinite } from './sql-number.ts'
import type { CompanionSql } from './step.ts'
import { coefficientNames, stepParameters } from './step-parameters.ts'
import { steps as stepsByKind } from './steps.ts'

/** Expressions that a chain's SQL is made of: columns of whatever the caller joins. */
export interface ChainColumns extends CompanionSql {
  /** The raw reading, DOUBLE. */
  readonly raw: string
  /** Coefficient i of `chainCoefficients`, DOUBLE. */
  readonly coefficient: (index: number) => string
}

export interface ChainSql {
  /** Engineering value, DOUBLE; null as in `runChain`. */
  readonly value: string
  /** Bits of `quality`, UTINYINT. */
  readonly quality: string
  /** Whether the reading is a fault of the sensor or its wiring (`Step.isFault`), BOOLEAN, never null. */
  readonly fault: string
  /** The same bits where value and fault already stand in columns of their own. */
  readonly qualityOf: (value: string, fault: string) => string
}

/** Text that is the same for chains which differ in their numbers only: these are reduced by one query. */
export const chainShape = (steps: readonly CalibrationStep[]): string =>
  [
    `revision ${reductionRevision}:`,
    ...steps.map(({ kind, parameters }) => {
      const texts = stepParameters[kind].texts.map((name) => `${name}=${textOf(parameters, name)}`)
      return texts.length > 0 ? `${kind}(${texts.join(',')})` : kind
    }),
  ].join(' ')

/**
 * Raised whenever a step comes to make something else of the same numbers: what was published before is then made
 * anew. 2: currents and resistances that only a fault gives have no value.
 */
const reductionRevision = 2

/** The numbers of a chain in the order in which `chainSql` asks for them. */
export const chainCoefficients = (steps: readonly CalibrationStep[]): readonly number[] =>
  steps.flatMap(({ kind, parameters }) =>
    coefficientNames(kind).map((name) => givenOrDefault(kind, parameters, name)),
  )

/**
 * A chain as expressions of DuckDB's core functions, the same operations in the same order as `runChain`.
 * Only the shape of `shapeSteps` is used; its numbers are the caller's columns.
 */
export function chainSql(shapeSteps: readonly CalibrationStep[], columns: ChainColumns): ChainSql {
  let expression = columns.raw
  let taken = 0
  const faults: string[] = []
  for (const [index, { kind, parameters }] of shapeSteps.entries()) {
    const numbers = coefficientNames(kind)
    const first = taken
    const parameter = (name: string): string =>
      numbers.includes(name) ? columns.coefficient(first + numbers.indexOf(name)) : textOf(parameters, name)
    const { sql, faultSql } = stepsByKind[kind]
    const apply = (x: string): string => sql(x, parameter, columns)
    if (faultSql)
      faults.push(sqlBind(sqlFinite(expression), `fault_x${index}`, faultSql(`fault_x${index}`, parameter)))
    const name = `step_x${index}`
    expression =
      expression.length > longestRepeated ? sqlBind(expression, name, apply(name)) : apply(expression)
    taken += numbers.length
  }
  const value = sqlFinite(expression)
  const fault = faults.length > 0 ? `coalesce(${faults.join(' or ')}, false)` : 'false'
  const qualityOf = (of: string, isFault: string): string => chainQualitySql(shapeSteps, columns, of, isFault)
  return { value, fault, quality: qualityOf(value, fault), qualityOf }
}

/** Longer expressions are named before a step repeats them, or the text would double with every curve. */
const longestRepeated = 1200

function chainQualitySql(
  shapeSteps: readonly CalibrationStep[],
  { barometerKpa, temperatureDegC }: CompanionSql,
  value: string,
  fault: string,
): string {
  const needed = new Set(shapeSteps.map(({ kind }) => stepsByKind[kind].needs))
  const faulty = shapeSteps.some(({ kind }) => stepsByKind[kind].faultSql !== undefined)
  const bit = (condition: string, bits: number): string => `case when ${condition} then ${bits} else 0 end`
  const unexplained = [
    `${value} is null`,
    ...(needed.has('barometerKpa') ? [`${barometerKpa} is not null`] : []),
    ...(faulty ? [`not ${fault}`] : []),
  ]
  const bits = [bit(unexplained.join(' and '), quality.notComputable)]
  if (needed.has('barometerKpa')) bits.push(bit(`${barometerKpa} is null`, quality.barometerMissing))
  if (needed.has('temperatureDegC')) bits.push(bit(`${temperatureDegC} is null`, quality.temperatureMissing))
  if (faulty) bits.push(bit(fault, quality.sensorFault))
  return `(${bits.join(' + ')})::UTINYINT`
}
