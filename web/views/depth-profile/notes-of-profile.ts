import type { Series, SiteDocument } from '#contract/site-document.ts'
import { notesOfLast } from '../../derived/notes-of-value.ts'
import { saidByNote } from '../../derived/said-by-note.ts'
import { foundOfValues } from '../../derived/verdict-on-value.ts'
import type { Columns } from '../../engine/columns.ts'

/** What persons found of the values of a profile, what they were made without and what checks noticed, an instant a sentence. */
export function notesOfProfile(given: {
  readonly document: Pick<SiteDocument, 'verdicts' | 'verdictWithdrawals'>
  readonly series: readonly Pick<Series, 'series' | 'id' | 'point'>[]
  readonly moments: readonly { readonly heading: string }[]
  readonly columns: Columns | null
}): readonly string[] {
  const { document, series, moments, columns } = given
  if (!columns) return []
  const found = foundOfValues(document)
  const seriesOf = new Map(series.map((one) => [one.series, one]))
  const [which, numbers, at, values, qualities, flags] = [
    'which',
    'series',
    'last_at_ms',
    'value',
    'quality',
    'flags',
  ].map((name) => columns.number(name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  return moments.flatMap(({ heading }, moment) => {
    const said = [...numbers].flatMap((number, row) => {
      const one = which[row] === moment ? seriesOf.get(number) : undefined
      if (!one) return []
      const value = values[row] as number
      const state = {
        value: Number.isFinite(value) ? value : null,
        quality: qualities[row] as number,
        flags: flags[row] as number,
      }
      const notes = [found(one.id, at[row] as number), ...notesOfLast(state)].filter((note) => note !== '')
      return [{ name: one.point, notes }]
    })
    return saidByNote(said).map((sentence) => (moments.length > 1 ? `${heading}: ${sentence}` : sentence))
  })
}
