import { dayMs, hourMs, programme, shareDone } from './programme.ts'

/** EA of a strut, kN for 1 µm/m; restraint 0.35 and 12e-6 per K make 25.7 kN/K. */
const stiffnessKnPerMicrostrain = 6.121
const thermalKnPerKelvin = 0.35 * stiffnessKnPerMicrostrain * 12

/** Share of the full build-up that each strut takes, ST-01 to ST-08. */
const shares = [0.93, 1.04, 0.96, 0.91, 0.89, 0.95, 0.92, 0.85]

/** Compression of strut `number` (1 to 8), kN; it is let go in the two hours before it is taken out. */
export function strutForceKn(number: number, epochMs: number, steelDegC: number, takenOutAt: number): number {
  const dates = number <= 4 ? programme.upperStruts : programme.lowerStruts
  const jacked = shareDone(epochMs, { from: dates.jackedFrom, until: dates.jackedUntil })
  if (jacked === 0) return 0
  const days = (epochMs - dates.loadedFrom) / dayMs
  const built = days > 0 ? 1450 * (1 - Math.exp(-days / 9)) : 0
  const share = shares[number - 1] ?? 1
  const force = 400 * jacked + share * built + jacked * thermalKnPerKelvin * (steelDegC - 14)
  return force * (1 - shareDone(epochMs, { from: takenOutAt - 2 * hourMs, until: takenOutAt - hourMs / 2 }))
}

/** What bending adds at gauge 1 to 4, as a share of the force; the four cancel. */
export function bendingShare(strut: number, gauge: number): number {
  const vertical = 0.05 + 0.006 * strut
  const sideways = 0.03 - 0.004 * strut
  return (gauge <= 2 ? vertical : -vertical) + (gauge % 2 === 1 ? sideways : -sideways)
}
