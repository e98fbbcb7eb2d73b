import type { ComputedString } from './computed-settlement.ts'
import { isFaint, type MeasuredAndComputed } from './measured-and-computed.ts'

/** What each string computes or why not, how it compares (null: no surface to compare with), and what none of it knows. */
export function computedNote(
  strings: readonly ComputedString[],
  compared: readonly MeasuredAndComputed[] | null,
): readonly string[] {
  const told = strings.map(({ location, outcome, partLate }) =>
    partLate
      ? `${location}: a tip in its compressible layers is silent, so it is left out`
      : outcome.ok
        ? `${location}: ${outcome.value.settlementMm.toFixed(1).replace('-', '−')} mm`
        : `${location}: ${outcome.issues
            .map(({ message }) => message)
            .join(' ')
            .replace(/\.$/, '')}`,
  )
  return [
    `Computed at strings of piezometers: ${told.join('; ')}.`,
    ...(strings.some(({ outcome }) => outcome.ok && outcome.value.settlementMm < 0)
      ? ['Negative: pressures have risen since, by which ground swells, less in unloading than m_v says.']
      : []),
    ...(compared === null ? [] : [comparedSentence(compared)]),
    'It does not know: how m_v falls as ground is compressed, creep, heave, sideways movement, what a tunnel or a dig takes out of the ground, settlement of layers without a tip, and water that comes to rest at another level than that of the deepest tip.',
  ]
}

function comparedSentence(compared: readonly MeasuredAndComputed[]): string {
  const apart = compared.filter((one) => !isFaint(one))
  return compared.length === 0
    ? 'No levelled point with a current value stands where something is computed.'
    : `Measured less computed at ${compared.length} levelled points and heads: ${range(compared)}; at ${apart.length} of them it is above twice the standard uncertainty of the measurement. What is computed has an uncertainty too, which nobody states.`
}

function range(compared: readonly MeasuredAndComputed[]): string {
  const of = (value: number) => `${value > 0 ? '+' : ''}${value.toFixed(1)}`.replace('-', '−')
  const differences = compared.map(({ differenceMm }) => differenceMm)
  return `${of(Math.min(...differences))} to ${of(Math.max(...differences))} mm`
}
