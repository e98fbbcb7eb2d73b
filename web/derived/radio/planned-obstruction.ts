import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { Obstruction } from '#domain/radio/obstruction.ts'

/** Something that somebody thinks of putting up. */
export interface PlannedObstruction {
  readonly corners: readonly { readonly eastingMetres: number; readonly northingMetres: number }[]
  /** True: its corners are those of a box; false: of a wall. */
  readonly closed: boolean
  readonly topLevelMetres: number
}

/** A planned thing as radio paths meet it; null where it has too few corners to stand. */
export function obstructionOf(planned: PlannedObstruction | null): Obstruction | null {
  if (!planned || planned.corners.length < (planned.closed ? 3 : 2)) return null
  const line = planned.corners.map(
    ({ eastingMetres, northingMetres }): SitePoint => [eastingMetres, northingMetres],
  )
  return {
    id: 'planned',
    name: 'Planned obstruction',
    outline: planned.closed ? [...line, line[0] as SitePoint] : line,
    topLevelMetres: planned.topLevelMetres,
    fromEpochMs: null,
    untilEpochMs: null,
  }
}
