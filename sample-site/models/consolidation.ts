import { outsideDrawdownMetres } from './groundwater.ts'
import { dayMs, programme } from './programme.ts'

export const clay = {
  topLevelMetres: 1.6,
  baseLevelMetres: -5.4,
  thicknessMetres: 7,
  compressibilityM2PerKn: 1e-4,
  consolidationM2PerYear: 8,
} as const

/** Degree of consolidation, double drainage (Terzaghi 1943): 0.26, 0.45, 0.63 at 30, 90, 180 days here. */
export function degreeOfConsolidation(daysSince: number): number {
  if (daysSince <= 0) return 0
  const drainage = clay.thicknessMetres / 2
  const factor = (clay.consolidationM2PerYear * (daysSince / 365)) / (drainage * drainage)
  if (factor < 0.2) return Math.sqrt((4 * factor) / Math.PI)
  let remaining = 0
  for (let m = 0; m < 12; m++) {
    const root = (Math.PI / 2) * (2 * m + 1)
    remaining += (2 / (root * root)) * Math.exp(-root * root * factor)
  }
  return 1 - remaining
}

/** Settlement, mm, of the clay below a level: m_v · Δu/2 · thickness · U, the part below taken in proportion. */
export function consolidationMillimetres(
  eastingMetres: number,
  northingMetres: number,
  levelMetres: number,
  epochMs: number,
): number {
  const days = (epochMs - programme.pumpingFrom) / dayMs
  if (days <= 0 || levelMetres <= clay.baseLevelMetres) return 0
  const below = Math.min(1, (levelMetres - clay.baseLevelMetres) / clay.thicknessMetres)
  const changeKpa = 9.81 * outsideDrawdownMetres(eastingMetres, northingMetres, epochMs)
  const final = clay.compressibilityM2PerKn * (changeKpa / 2) * clay.thicknessMetres * 1000
  return final * degreeOfConsolidation(days) * below
}
