import { type Measure, measures } from '#domain/site/vocabulary.ts'
import type { Selection } from './selection.ts'

/** Such as `instrument:VW-1` or `point:VW-1A/pressure`; empty: nothing. */
export function writeSelection(selection: Selection): string {
  if (selection.kind === 'nothing') return ''
  if (selection.kind === 'instrument') return `instrument:${selection.instrument}`
  return `point:${selection.point}${selection.measure ? `/${selection.measure}` : ''}`
}

/** What cannot be read selects nothing. */
export function readSelection(text: string): Selection {
  const [kind, ...rest] = text.split(':')
  const name = rest.join(':')
  if (name === '') return { kind: 'nothing' }
  if (kind === 'instrument') return { kind: 'instrument', instrument: name }
  if (kind !== 'point') return { kind: 'nothing' }
  const measure = measures.find((one): one is Measure => name.endsWith(`/${one}`)) ?? null
  const point = measure ? name.slice(0, -measure.length - 1) : name
  return { kind: 'point', point, measure }
}
