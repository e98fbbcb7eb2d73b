import type { ChangeShown } from './change-shown.ts'
import type { EvidenceFigure } from './evidence.ts'
import { changeText } from './wording.ts'

const dayMs = 86_400_000

/** The 95 % interval of a figure as a sentence of its own, behind another, with what it rests on; nothing where there is none. */
export function intervalSentence(of: string, figure: EvidenceFigure | null, restsOn: string): string {
  if (!figure || figure.low === null || figure.high === null) return ''
  return ` ${of}, 95 %: ${changeText(figure.low, '')} to ${changeText(figure.high, figure.unit)}, ${restsOn}.`
}

/** A change as a figure; null where too little is there. */
const changeFigure = (shown: ChangeShown | null, unit: string): EvidenceFigure | null =>
  shown && { value: shown.size, low: shown.low, high: shown.high, unit }

/** What the interval of a change rests on. */
function changeRestsOn({ steps, isTold }: ChangeShown, stepMs: number): string {
  const days = Math.round(stepMs / dayMs)
  const values = `by ${steps} means of ${days <= 1 ? 'a day' : `${days} days`}, counted less as they hang together`
  return isTold
    ? `${values}, its beginning and length left open`
    : `${values}, as of a steady change over the stretch`
}

/** A change as a figure with the sentence of its interval, as a line of evidence shows them. */
export function changeSeen(
  of: string,
  shown: ChangeShown | null,
  unit: string,
  stepMs: number,
): { readonly figure: { readonly figure?: EvidenceFigure }; readonly words: string } {
  const figure = changeFigure(shown, unit)
  if (!figure || !shown) return { figure: {}, words: '' }
  return { figure: { figure }, words: intervalSentence(of, figure, changeRestsOn(shown, stepMs)) }
}
