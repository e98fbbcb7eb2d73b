import { efficiencyByRegression, responseToAirPressure } from '#domain/ground/barometric-efficiency.ts'
import { effectiveStressKpa, totalVerticalStressKpa } from '#domain/ground/effective-stress.ts'
import { efficiencyByClark, efficiencyByDifferences } from '#domain/ground/efficiency-by-changes.ts'
import { criticalGradientOfGrains, ratioAgainstHeave } from '#domain/ground/heave.ts'
import { gradientsBetweenTips } from '#domain/ground/profiles.ts'
import type { Outcome } from '#domain/outcome.ts'
import { hydrostaticKpa, piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { unitWeightKnPerM3 } from '#domain/reduction/water-density.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { barometricEfficiencyRows } from './rows.ts'
import { wellAndAir } from './well-and-air.ts'

function taken<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

interface WrittenTip {
  readonly tip_elevation_m: number
  readonly u_kPa: number
}

const verticalGradient = ({ upper, lower }: { upper: WrittenTip; lower: WrittenTip }) => {
  const tip = (id: string, { tip_elevation_m, u_kPa }: WrittenTip) => ({
    id,
    levelMetres: tip_elevation_m,
    porePressureKpa: u_kPa,
  })
  return gradientsBetweenTips([tip('upper', upper), tip('lower', lower)])[0]?.upwardHydraulicGradient
}

export const barometricEfficiency: PublishedTable = {
  area: 'barometric efficiency',
  rows: barometricEfficiencyRows,
  computed: {
    'GWT-14': () => {
      const fit = taken(efficiencyByRegression(wellAndAir(), 9.80665))
      return {
        BE: fit.efficiency,
        trend_m_per_h: fit.trendMetresPerHour,
        residual_sd_m: fit.residualStandardDeviationMetres,
      }
    },
    'GWT-15': () => taken(efficiencyByDifferences(wellAndAir(), 9.80665)).efficiency,
    'GWT-16': () => taken(efficiencyByClark(wellAndAir(), 9.80665)),
    'GWT-17': ({ BE, dB_kPa }) => {
      const response = responseToAirPressure(BE, dB_kPa, 9.81)
      return {
        well_level_m: response.wellLevelMetres,
        vented_sensor_in_well_kPa: response.ventedInWellKpa,
        absolute_sensor_in_well_kPa: response.absoluteInWellKpa,
        absolute_sealed_piezometer_in_aquifer_kPa: response.sealedInAquiferKpa,
        rigid_unconfined_shallow_absolute_kPa: response.absoluteUnconfinedKpa,
      }
    },
    'GWT-18': ({ depth_m, water_table_m }) => hydrostaticKpa(-depth_m, -water_table_m),
    'GWT-19': (given) => ({
      h_upper_m: piezometricLevelMetres(given.upper.tip_elevation_m, given.upper.u_kPa),
      h_lower_m: piezometricLevelMetres(given.lower.tip_elevation_m, given.lower.u_kPa),
      gradient_up: verticalGradient(given as PublishedInputs),
    }),
    'GWT-20': ({ Gs, e }) => {
      const critical = criticalGradientOfGrains(Gs, e)
      const tips = barometricEfficiencyRows.find(({ id }) => id === 'GWT-19')?.inputs as PublishedInputs
      return { i_crit: critical, FS: ratioAgainstHeave(critical, verticalGradient(tips) ?? Number.NaN) }
    },
    'GWT-21': ({ rho }) => rho.map((density: number) => unitWeightKnPerM3(density)),
    // 2 m of 18 kN/m³ over ground of 20 kN/m³, water at 2 m, as the row's name says.
    'GWT-22': ({ depth_m }) => {
      const total = totalVerticalStressKpa(
        [
          { thicknessMetres: 2, unitWeightKnPerM3: 18 },
          { thicknessMetres: 20, unitWeightKnPerM3: 20 },
        ],
        depth_m,
      )
      const u = hydrostaticKpa(-depth_m, -2)
      return { total_kPa: total, u_kPa: u, effective_kPa: effectiveStressKpa(total ?? Number.NaN, u) }
    },
  },
}
