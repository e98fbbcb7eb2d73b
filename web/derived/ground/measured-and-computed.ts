import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import type { SettlementPoint } from '../settlement-points.ts'

/** Settlement measured at a point beside what pressures compute there, mm. */
export interface MeasuredAndComputed {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly measuredMm: number
  readonly computedMm: number
  /** Measured less computed. */
  readonly differenceMm: number
  /** Of the measurement; that of what is computed is not known. */
  readonly standardUncertaintyMm: number | null
  /** `between strings`, or the string it stands beside. */
  readonly computedBy: string
}

/** As far from a string what it computes is compared where no surface reaches. */
export const besideStringMetres = 15

/** Levelled points with a current value where something is computed: on the surface, else beside a string. */
export function measuredAndComputed(
  measured: readonly SettlementPoint[],
  onSurface: readonly (number | null)[],
  strings: readonly GroundPoint[],
): readonly MeasuredAndComputed[] {
  return measured.flatMap(
    ({ id, eastingMetres, northingMetres, valueMm, standardUncertaintyMm, late }, at) => {
      if (valueMm === null || late) return []
      const near = strings
        .filter((string) => string.value !== null && !string.late)
        .map((string) => ({
          string,
          metres: Math.hypot(string.eastingMetres - eastingMetres, string.northingMetres - northingMetres),
        }))
        .filter(({ metres }) => metres <= besideStringMetres)
        .toSorted((one, other) => one.metres - other.metres)[0]
      const surface = onSurface[at] ?? null
      const computedMm = surface ?? near?.string.value ?? null
      if (computedMm === null) return []
      return [
        {
          id,
          eastingMetres,
          northingMetres,
          measuredMm: valueMm,
          computedMm,
          differenceMm: valueMm - computedMm,
          standardUncertaintyMm,
          computedBy: surface === null ? `beside ${near?.string.id ?? ''}` : 'between strings',
        },
      ]
    },
  )
}

/** True where a difference is not told from none by the measurement alone. */
export const isFaint = ({ differenceMm, standardUncertaintyMm }: MeasuredAndComputed): boolean =>
  standardUncertaintyMm === null || Math.abs(differenceMm) <= 2 * standardUncertaintyMm
