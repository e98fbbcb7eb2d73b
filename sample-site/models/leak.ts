import { dayMs, programme } from './programme.ts'

/** The leaking drain: a bowl of settlement 2 m east of SP-31. */
const leak = {
  eastingMetres: 500_014,
  northingMetres: 309_950,
  depthMillimetres: 14,
  sigmaMetres: 6,
} as const

/** 0 before 9 July, then the upper half of a logistic curve of 10 days, towards 1. */
export function leakShare(epochMs: number): number {
  const days = (epochMs - programme.leakFrom) / dayMs
  return days <= 0 ? 0 : 2 / (1 + Math.exp(-days / 10)) - 1
}

export function leakMillimetres(eastingMetres: number, northingMetres: number, epochMs: number): number {
  const share = leakShare(epochMs)
  if (share === 0) return 0
  const squared = (eastingMetres - leak.eastingMetres) ** 2 + (northingMetres - leak.northingMetres) ** 2
  return leak.depthMillimetres * Math.exp(-squared / (2 * leak.sigmaMetres ** 2)) * share
}

/** Pressure that the leak adds at PZ-04A, kPa: up to 3, falling away once the drain is relined. */
export function leakPressureKpa(epochMs: number): number {
  const days = (epochMs - programme.leakFrom) / dayMs
  if (days <= 0) return 0
  const risen = 3 * (1 - Math.exp(-days / 5))
  const after = (epochMs - programme.drainRelinedAt) / dayMs
  return after > 0 ? risen * Math.exp(-after / 14) : risen
}
