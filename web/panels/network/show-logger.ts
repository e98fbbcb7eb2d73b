import { filters, toggleKind } from '../../state/filters.ts'
import { selectPoint } from '../../state/selection.ts'
import { siteLookup } from '../../state/site-document.ts'

/** Selects a logger and has the plan draw its kind, which is left out at first: a selection nobody sees is none. */
export function showLogger(logger: string): void {
  const kind = siteLookup().pointById.get(logger)?.kind
  if (kind && filters().hiddenKinds.includes(kind)) toggleKind(kind)
  selectPoint(logger)
}
