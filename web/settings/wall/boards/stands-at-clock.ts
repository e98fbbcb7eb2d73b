import { describeSymbol } from '../../../panels/describe-point.ts'
import { selectedSymbol } from '../../../state/plan-symbols.ts'
import { selectedInstrument } from '../../../state/selection.ts'

/** How what the board shows stands at the clock, in one sentence: a drawing alone does not say which level is reached. */
export function standsAtClock(): readonly string[] {
  const instrument = selectedInstrument()
  return instrument ? [`${instrument.id}: ${describeSymbol(selectedSymbol())}.`] : []
}
