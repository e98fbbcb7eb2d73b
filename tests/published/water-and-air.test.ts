import { describe, expect, it } from 'vitest'
import {
  criticalGradient,
  effectiveStressKpa,
  porePressureRatio,
  totalVerticalStressKpa,
  upliftRatios,
} from '#domain/ground/effective-stress.ts'
import { headGradient } from '#domain/ground/head-gradient.ts'
import {
  altitudeOfPressure,
  geopotentialMetres,
  pressureAtLevel,
  standardAir,
  stationPressure,
} from '#domain/reduction/atmosphere.ts'
import { piezometricLevelMetres, pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import { seaWaterDensity, unitWeightKnPerM3, waterDensity } from '#domain/reduction/water-density.ts'
import { expectWithin } from './expect-within.ts'
import { waterAndAirRows } from './water-and-air-values.ts'

type Inputs = Readonly<Record<string, number>>

const air = ({ H_gpm = 0 }: Inputs) => {
  const { temperatureKelvin, pressurePa, densityKgPerM3 } = standardAir(H_gpm)
  return { T_K: temperatureKelvin, p_Pa: pressurePa, rho_kg_m3: densityKgPerM3 }
}

/** What the project computes for each row, or for each row of a kind. */
const computed: Readonly<Record<string, (inputs: Inputs) => unknown>> = {
  WD: ({ t_C = 0 }) => waterDensity(t_C),
  'WD-20': ({ S_psu = 0, t68_C = 0 }) => seaWaterDensity(S_psu, t68_C),
  ATM: air,
  'ATM-13': ({ p_Pa = 0 }) => altitudeOfPressure(p_Pa),
  'ATM-14': ({ Z_m = 0 }) => ({
    H_gpm: geopotentialMetres(Z_m),
    p_Pa: standardAir(geopotentialMetres(Z_m)).pressurePa,
  }),
  'ATM-15': ({ p_hPa = 0, dz_m = 0, Tmean_C = 0 }) => pressureAtLevel(p_hPa, dz_m, Tmean_C),
  'ATM-17': ({ QNH_hPa = 0, elev_m = 0 }) => stationPressure(QNH_hPa, elev_m),
  'ATM-21': ({ p_abs_kPa = 0, baro_kPa = 0 }) => ({
    u_kPa: p_abs_kPa - baro_kPa,
    head_m: pressureHeadMetres(p_abs_kPa - baro_kPa, 9.80665),
  }),
  'HY-01': (inputs) => {
    const { u_kPa, gamma_w_kN_m3 } = inputs as unknown as { u_kPa: number; gamma_w_kN_m3: number[] }
    return gamma_w_kN_m3.map((unitWeight) => pressureHeadMetres(u_kPa, unitWeight))
  },
  'HY-02': ({ z_tip_m = 0, u_kPa = 0, gamma_w_kN_m3 = 0 }) =>
    piezometricLevelMetres(z_tip_m, u_kPa, gamma_w_kN_m3),
  'HY-04': ({ zA_m = 0, uA_kPa = 0, zB_m = 0, uB_kPa = 0, gamma_w_kN_m3 = 0 }) => {
    const HA_m = piezometricLevelMetres(zA_m, uA_kPa, gamma_w_kN_m3)
    const HB_m = piezometricLevelMetres(zB_m, uB_kPa, gamma_w_kN_m3)
    return { HA_m, HB_m, i_down: (HA_m - HB_m) / (zA_m - zB_m) }
  },
  'HY-05': (inputs) => {
    const [a, b, c] = (inputs as unknown as { points: number[][] }).points.map(
      ([eastingMetres = 0, northingMetres = 0, headMetres = 0]) => ({
        eastingMetres,
        northingMetres,
        headMetres,
      }),
    )
    if (!a || !b || !c) throw new Error('three points')
    const gradient = headGradient([a, b, c])
    if (!gradient.ok) throw new Error('refused')
    const { east, north, magnitude, flowAzimuthDegrees } = gradient.value
    return { dHdx: east, dHdy: north, i: magnitude, flow_azimuth_deg: flowAzimuthDegrees }
  },
  'HY-06': (inputs) => {
    const { layers, z_m } = inputs as unknown as {
      layers: { h_m: number; gamma_t_m3: number }[]
      z_m: number[]
    }
    const stack = layers.map(({ h_m, gamma_t_m3 }) => ({
      thicknessMetres: h_m,
      unitWeightKnPerM3: gamma_t_m3,
    }))
    const sigma = z_m.map((depth) => totalVerticalStressKpa(stack, depth) as number)
    return {
      sigma,
      u: z_m,
      sigma_eff: sigma.map((total, at) => effectiveStressKpa(total, z_m[at] as number)),
    }
  },
  'HY-08': ({ u_kPa = 0, sigma_v_kPa = 0 }) => porePressureRatio(u_kPa, sigma_v_kPa),
  'HY-11': ({ gamma_sat_kN_m3 = 0, gamma_w = 0 }) => criticalGradient(gamma_sat_kN_m3, gamma_w),
  'HY-16': ({ t_m = 0, gamma_kN_m3 = 0, h_above_base_m = 0, gamma_w = 0 }) => {
    const ratios = upliftRatios({
      thicknessMetres: t_m,
      unitWeightKnPerM3: gamma_kN_m3,
      headAboveBaseMetres: h_above_base_m,
      unitWeightOfWater: gamma_w,
    })
    return { FS_total: ratios.totalStress, FS_effective: ratios.effectiveStress }
  },
  'HY-17': ({ dh_m = 0, L_m = 0, gamma_sat = 0, gamma_w = 0 }) => {
    const critical = criticalGradient(gamma_sat, gamma_w)
    return { i: dh_m / L_m, i_c: critical, FS: critical / (dh_m / L_m) }
  },
  'HY-19': ({ h_m = 0, rho = 0, g = 0 }) => unitWeightKnPerM3(rho, g) * h_m,
}

describe('water and air against values from outside', () => {
  it.each(waterAndAirRows.map((row) => [row.id, row.quantity, row] as const))(
    '%s %s',
    (id, _quantity, row) => {
      const compute = computed[id] ?? computed[id.slice(0, id.indexOf('-'))]
      if (!compute) throw new Error(`nothing is computed for ${id}`)
      expectWithin(compute(row.inputs as Inputs), row.expected, row.tolerance)
    },
  )

  it('knows nothing outside the range of its formulae', () => {
    expect(waterDensity(-1)).toBeNaN()
    expect(waterDensity(41)).toBeNaN()
    expect(seaWaterDensity(50, 10)).toBeNaN()
    expect(standardAir(12_000).pressurePa).toBeNaN()
    expect(totalVerticalStressKpa([{ thicknessMetres: 3, unitWeightKnPerM3: 18 }], 4)).toBeNull()
    expect(porePressureRatio(10, 0)).toBeNaN()
    const onALine = [0, 1, 2].map((at) => ({ eastingMetres: at, northingMetres: 2 * at, headMetres: at }))
    expect(headGradient(onALine as never).ok).toBe(false)
  })
})
