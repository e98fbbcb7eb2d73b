import { assert } from '../../assert.ts'
import { applyConversion, type Conversion, findConversion, unitSymbol } from '../../units.ts'
import { numberText, quantityText } from '../number-text.ts'
import { textOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** The same quantity in another unit of the same kind; factors are exact definitions (`units.ts`). */
export const unit: Step = {
  kind: 'unit',
  formula: stepParameters.unit.formula,
  needs: null,
  unitIn: (parameters) => textOf(parameters, 'from'),
  unitOut: (parameters) => textOf(parameters, 'to'),
  apply: (x, parameters) =>
    applyConversion(x, conversion(textOf(parameters, 'from'), textOf(parameters, 'to'))),
  sql: (x, parameter) => {
    const by = conversion(parameter('from'), parameter('to'))
    return `((${x} + ${sqlNumber(by.addBefore)}) * ${sqlNumber(by.numerator)} / ${sqlNumber(by.denominator)} - ${sqlNumber(by.subtractAfter)})`
  },
  derivative: (_x, parameters) => {
    const by = conversion(textOf(parameters, 'from'), textOf(parameters, 'to'))
    return by.numerator / by.denominator
  },
  invert: (y, parameters) =>
    applyConversion(y, conversion(textOf(parameters, 'to'), textOf(parameters, 'from'))),
  sentence: (x, y, parameters, _companions, { unitIn, unitOut }) => {
    if (y === null) return `There is no value in another unit for ${numberText(x)}.`
    const by = conversion(textOf(parameters, 'from'), textOf(parameters, 'to'))
    const before = by.addBefore === 0 ? numberText(x) : `(${numberText(x)} + ${numberText(by.addBefore)})`
    const factor = by.numerator === 1 ? '' : ` × ${numberText(by.numerator)}`
    const divisor = by.denominator === 1 ? '' : ` / ${numberText(by.denominator)}`
    const after = by.subtractAfter === 0 ? '' : ` − ${numberText(by.subtractAfter)}`
    return `From ${unitSymbol(unitIn)} to ${unitSymbol(unitOut)}: ${before}${factor}${divisor}${after} = ${quantityText(y, unitOut)}.`
  },
}

/** `read-calibration.ts` has refused pairs that do not convert. */
function conversion(from: string, to: string): Conversion {
  const found = findConversion(from, to)
  assert(found.ok, `${from} converts to ${to}`)
  return found.value
}
