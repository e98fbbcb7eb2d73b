import type { CalibrationStep } from './chain.ts'
import { numberOf, textOf } from './parameter.ts'
import { quality } from './quality.ts'
import { sqlBind, sqlFinite } from './sql-number.ts'
import type { CompanionSql } from './step.ts'
import { stepParameters } from './step-parameters.ts'
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
  /** The same bits where the value already stands in a column of its own. */
  readonly qualityOf: (value: string) => string
}

/** Text that is the same for chains which differ in their numbers only: these are reduced by one query. */
export const chainShape = (steps: readonly CalibrationStep[]): string =>
  steps
    .map(({ kind, parameters }) => {
      const texts = stepParameters[kind].texts.map((name) => `${name}=${textOf(parameters, name)}`)
      return texts.length > 0 ? `${kind}(${texts.join(',')})` : kind
    })
    .join(' ')

/** The numbers of a chain in the order in which `chainSql` asks for them. */
export const chainCoefficients = (steps: readonly CalibrationStep[]): readonly number[] =>
  steps.flatMap(({ kind, parameters }) =>
    stepParameters[kind].numbers.map((name) => numberOf(parameters, name)),
  )

/**
 * A chain as expressions of DuckDB's core functions, the same operations in the same order as `runChain`.
 * Only the shape of `shapeSteps` is used; its numbers are the caller's columns.
 */
export function chainSql(shapeSteps: readonly CalibrationStep[], columns: ChainColumns): ChainSql {
  let expression = columns.raw
  let taken = 0
  for (const [index, { kind, parameters }] of shapeSteps.entries()) {
    const { numbers } = stepParameters[kind]
    const first = taken
    const parameter = (name: string): string =>
      numbers.includes(name) ? columns.coefficient(first + numbers.indexOf(name)) : textOf(parameters, name)
    const apply = (x: string): string => stepsByKind[kind].sql(x, parameter, columns)
    const name = `step_x${index}`
    expression =
      expression.length > longestRepeated ? sqlBind(expression, name, apply(name)) : apply(expression)
    taken += numbers.length
  }
  const value = sqlFinite(expression)
  const qualityOf = (of: string): string => chainQualitySql(shapeSteps, columns, of)
  return { value, quality: qualityOf(value), qualityOf }
}

/** Longer expressions are named before a step repeats them, or the text would double with every curve. */
const longestRepeated = 1200

function chainQualitySql(
  shapeSteps: readonly CalibrationStep[],
  { barometerKpa, temperatureDegC }: CompanionSql,
  value: string,
): string {
  const has = (kind: CalibrationStep['kind']): boolean => shapeSteps.some((step) => step.kind === kind)
  const bit = (condition: string, bits: number): string => `case when ${condition} then ${bits} else 0 end`
  const noValue = has('barometric') ? `${value} is null and ${barometerKpa} is not null` : `${value} is null`
  const bits = [bit(noValue, quality.notComputable)]
  if (has('barometric')) bits.push(bit(`${barometerKpa} is null`, quality.barometerMissing))
  if (has('thermal')) bits.push(bit(`${temperatureDegC} is null`, quality.temperatureMissing))
  return `(${bits.join(' + ')})::UTINYINT`
}
