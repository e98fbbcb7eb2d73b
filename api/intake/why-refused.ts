import type { Layout } from '#contract/layout.ts'
import type { ReadingState } from './read-kept.ts'
import type { RowsRead } from './read-rows.ts'
import type { TakingContext } from './row-taker.ts'
import { sizeText } from './size-text.ts'

/** Why nothing is taken of rows that were read; null: they are taken. */
export function whyRefused(
  { rows, unreadable, wrong }: RowsRead,
  state: ReadingState,
  layout: Layout,
  { log }: TakingContext,
  inflatedLimitBytes: number,
): string | null {
  if (wrong) return `${wrong.message} The file is kept.`
  if (state.overLimit)
    return `The compressed file holds more than ${sizeText(inflatedLimitBytes)}, the most that is taken at once. Split it and send the parts; the file is kept.`
  if (state.broken !== null && rows === 0)
    return `The compressed file is damaged (${state.broken}) and no whole row came out of it. Send it again; what came is kept.`
  if (unreadable * 2 <= rows) return null
  const examples = log.first.map(
    ({ line, column, message }) => `Line ${line}${column ? `, column ${column}` : ''}: ${message}`,
  )
  return `Under layout "${layout.id}" ${unreadable} of the ${rows} rows read could not be understood, so it is probably not the layout of this file; nothing was taken. ${examples.slice(0, 2).join(' ')} Choose or declare another layout, then take the file again; it is kept.`
}
