import { createSignal } from 'solid-js'
import type { InstrumentKind } from '#domain/site/vocabulary.ts'

import type { Standing } from '../ui/state-scale.ts'

export interface Filters {
  /** Kinds left out of plan and register. */
  readonly hiddenKinds: readonly InstrumentKind[]
  /** Only these standings; empty: all. */
  readonly standings: readonly Standing[]
  /** Part of a name; empty: all. */
  readonly text: string
  /** Only what has an alert that is not closed. */
  readonly openAlerts: boolean
}

export const noFilters: Filters = {
  hiddenKinds: ['logger-battery'],
  standings: [],
  text: '',
  openAlerts: false,
}

const [filters, setFilters] = createSignal<Filters>(noFilters)

export { filters }

export function toggleKind(kind: InstrumentKind): void {
  setFilters((now) => ({ ...now, hiddenKinds: toggled(now.hiddenKinds, kind) }))
}

export function toggleStanding(standing: Standing): void {
  setFilters((now) => ({ ...now, standings: toggled(now.standings, standing) }))
}

export function toggleOpenAlerts(): void {
  setFilters((now) => ({ ...now, openAlerts: !now.openAlerts }))
}

export function filterText(text: string): void {
  setFilters((now) => ({ ...now, text }))
}

export function restoreFilters(wanted: Filters): void {
  setFilters(wanted)
}

export function clearFilters(): void {
  setFilters(noFilters)
}

function toggled<T>(list: readonly T[], one: T): readonly T[] {
  return list.includes(one) ? list.filter((other) => other !== one) : [...list, one]
}
