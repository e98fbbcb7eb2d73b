import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { StepKind } from '../site/vocabulary.ts'
import { findConversion, findUnit } from '../units.ts'
import type { StepParameters } from './chain.ts'
import { stepParameters } from './step-parameters.ts'
import { unfitParameters } from './unfit-parameters.ts'

/** `name=value; name=value` as the parameters of a step; every name known and given once, every value fit. */
export function parseStepParameters(kind: StepKind, text: string): Outcome<StepParameters> {
  const { numbers, texts, optional = {} } = stepParameters[kind]
  const known = [...numbers, ...texts, ...Object.keys(optional)]
  const issues: Issue[] = []
  const parameters: Record<string, number | string> = {}
  for (const pair of text.split(';').map((part) => part.trim())) {
    if (pair === '') continue
    const [, name = '', value = ''] = /^([^=]*?)\s*=\s*(.*)$/s.exec(pair) ?? []
    if (name === '')
      issues.push(
        fault('pair-expected', pair, 'Write name=value pairs separated by semicolons.', 'name=value'),
      )
    else if (!known.includes(name))
      issues.push(
        fault(
          'parameter-unknown',
          name,
          `There is no parameter “${name}”; ${known.length > 0 ? `it takes ${known.join(', ')}` : 'it takes none'}. Correct the name or take it out.`,
          known.join(', ') || 'nothing',
        ),
      )
    else if (name in parameters)
      issues.push(fault('parameter-repeated', name, `“${name}” is given twice. Keep one.`, 'each name once'))
    else if (texts.includes(name)) parameters[name] = value
    else {
      const number = plainNumber.test(value) ? Number(value) : Number.NaN
      if (Number.isFinite(number)) parameters[name] = number
      else
        issues.push(
          fault(
            'number-expected',
            `${name}=${value}`,
            `“${name}” is not a number: “${value}”. Write it with a decimal point, for example −0.0123 as -0.0123.`,
            'a number with a decimal point',
          ),
        )
    }
  }
  const named = new Set([
    ...Object.keys(parameters),
    ...issues.flatMap(({ value }) => value?.split('=')[0] ?? []),
  ])
  for (const name of [...numbers, ...texts])
    if (!named.has(name))
      issues.push(
        fault('parameter-missing', name, `“${name}” is missing. Take it from the certificate.`, `${name}=…`),
      )
  if (issues.length === 0) issues.push(...unfit(kind, parameters))
  return issues.length > 0 ? reject(...issues) : accept(parameters)
}

const plainNumber = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/

const fault = (code: string, value: string, message: string, expected: string): Issue => ({
  code,
  column: 'parameters',
  value,
  message,
  expected,
})

function unfit(kind: StepKind, parameters: StepParameters): readonly Issue[] {
  const numbers = unfitParameters(kind, parameters).map(({ name, message, expected }) =>
    fault('parameter-unfit', `${name}=${parameters[name]}`, message, expected),
  )
  return [...numbers, ...unfitUnits(kind, parameters)]
}

function unfitUnits(kind: StepKind, parameters: StepParameters): readonly Issue[] {
  if (kind === 'unit') {
    const conversion = findConversion(String(parameters.from), String(parameters.to))
    return conversion.ok ? [] : conversion.issues.map((issue) => ({ ...issue, column: 'parameters' }))
  }
  const unit = parameters.unit
  return unit === undefined || findUnit(String(unit))
    ? []
    : [
        fault(
          'unit-unknown',
          `unit=${unit}`,
          `The unit “${unit}” is not known. Write a UCUM code such as kPa, mm, deg, Cel or kN.`,
          'a UCUM code of a known unit',
        ),
      ]
}
