import { grooveSpiral, grooveTurnDegrees } from '../../geometry/groove-spiral.ts'
import type { Instrument } from '../../site/tables.ts'
import { type AxisShares, axisShares } from '../inclinometer-axes.ts'
import type { PlanSite } from './plan-site.ts'

/** What A and B are to the east and north in one casing whose A groove has a bearing at the top. */
export interface GrooveShares {
  readonly at: (depthMetres: number) => AxisShares
  /** How A lies, for the words of a sum. */
  readonly says: string
}

/** Shares by depth: each segment is turned by the grooves at its own middle, where their spiral was surveyed. */
export function grooveShares(
  instrument: Instrument,
  axisBearingDegrees: number,
  site: PlanSite,
): GrooveShares {
  const positiveB = instrument.positiveB ?? 'clockwise'
  const spiral = grooveSpiral(instrument.location, site.spiralSurveys ?? [])
  const turned = spiral
    ? ` at the top, turned at each depth by the spiral surveyed on ${new Date(spiral.surveyedAtEpochMs).toISOString().slice(0, 10)}`
    : ''
  return {
    at: (depthMetres) =>
      axisShares({ bearingDegrees: axisBearingDegrees + grooveTurnDegrees(spiral, depthMetres), positiveB }),
    says: `A bearing ${axisBearingDegrees}°${turned} and B 90° ${positiveB} of it`,
  }
}
