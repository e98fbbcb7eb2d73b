import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { StepKind } from '../site/vocabulary.ts'
import { findConversion, findUnit } from '../units.ts'
import type { StepParameters } from './chain.ts'
import { stepParameters } from './step-parameters.ts'

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

/** Coefficients with which a formula means nothing: it would divide by nought, or give one value whatever is read. */
function unfit(kind: StepKind, parameters: StepParameters): readonly Issue[] {
  const zero = (name: string): boolean => parameters[name] === 0
  const notAbove = (name: string): boolean => !((parameters[name] as number) > 0)
  const issues: Issue[] = []
  const refuse = (name: string, message: string, expected: string): void => {
    issues.push(fault('parameter-unfit', `${name}=${parameters[name]}`, message, expected))
  }
  if (kind === 'linear' && zero('factor'))
    refuse('factor', 'With a factor of 0 every reading gives the same value. Correct the factor.', 'not 0')
  if (kind === 'polynomial' && zero('c1') && zero('c2'))
    refuse('c1', 'With c1 and c2 both 0 every reading gives the same value. Correct them.', 'not both 0')
  if (kind === 'steinhart-hart' && (notAbove('b') || (parameters.c as number) < 0))
    refuse(
      'b',
      'Temperature must fall as resistance rises: b above 0 and c not below 0. Correct them.',
      'b > 0, c ≥ 0',
    )
  if (kind === 'callendar-van-dusen' && notAbove('r0'))
    refuse('r0', 'The resistance at 0 °C must be above 0 Ω. Correct it.', 'above 0')
  if ((kind === 'current-span' || kind === 'voltage-span') && parameters.low === parameters.high)
    refuse('high', 'The two ends of the span are equal. Correct them.', 'high different from low')
  if (kind === 'voltage-span' && parameters.lowVolts === parameters.highVolts)
    refuse(
      'highVolts',
      'The two voltages of the span are equal. Correct them.',
      'highVolts different from lowVolts',
    )
  if (kind === 'ratio-bridge' && zero('sensitivity'))
    refuse('sensitivity', 'A sensitivity of 0 divides by nought. Correct it.', 'not 0')
  if (kind === 'ratio-bridge' && zero('capacity'))
    refuse('capacity', 'A capacity of 0 gives 0 whatever is read. Correct it.', 'not 0')
  if (kind === 'gauge-length-sine' && notAbove('length'))
    refuse('length', 'The gauge length must be above 0 m. Correct it.', 'above 0')
  if ('maximumAgeMinutes' in parameters && (parameters.maximumAgeMinutes as number) < 0)
    refuse('maximumAgeMinutes', 'An age cannot be negative. Correct it.', '0 or more')
  issues.push(...unfitUnits(kind, parameters))
  return issues
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
