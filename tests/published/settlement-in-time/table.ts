import {
  degreeOfConsolidation,
  excessLeft,
  timeFactorByLogarithm,
  timeFactorByParabola,
  timeFactorOf,
} from '#domain/ground/consolidation/degree-of-consolidation.ts'
import { dissipationPercent } from '#domain/ground/embankments/dissipation.ts'
import {
  consolidationCoefficient,
  forecastByEqualIntervals,
} from '#domain/ground/embankments/equal-interval-forecast.ts'
import { hyperbolaOfConsolidation } from '#domain/ground/embankments/hyperbola-of-consolidation.ts'
import { forecastByHyperbola } from '#domain/ground/embankments/hyperbolic-forecast.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { settlementInTimeRows } from './rows.ts'

const degree = ({ Tv }: PublishedInputs) => degreeOfConsolidation(Tv)
const isochrone = ({ Tv, z_over_H }: PublishedInputs) => z_over_H.map((z: number) => excessLeft(Tv, z))
const readings = (days: readonly number[], mm: readonly number[]) =>
  days.map((atDays, at) => ({ atDays, settlementMm: mm[at] as number }))
const byIntervals = (days: readonly number[], mm: readonly number[], interval: number, fromDays = 0) => {
  const { fit, finalSettlementMm } = accepted(
    forecastByEqualIntervals(readings(days, mm), interval, { fromDays, untilDays: null }),
  )
  return { b0: fit.intercept, b1: fit.slope, s_final: finalSettlementMm }
}

export const settlementInTime: PublishedTable = {
  area: 'settlement in time',
  rows: settlementInTimeRows,
  computed: {
    'CON-01': ({ U_percent }) => U_percent.map((percent: number) => timeFactorOf(percent / 100)),
    'CON-02': degree,
    'CON-03': degree,
    'CON-04': degree,
    'CON-05': degree,
    'CON-06': degree,
    'CON-07': degree,
    'CON-09': ({ U }) => U.map(timeFactorByParabola),
    'CON-10': ({ U }) => U.map(timeFactorByLogarithm),
    'CON-11': isochrone,
    'CON-12': isochrone,
    'CON-13': isochrone,
    'CON-15': isochrone,
    'CON-17': isochrone,
    'CON-20': ({ u_initial, u_now, u_hydrostatic }) => dissipationPercent(u_initial, u_now, u_hydrostatic),
    'ASA-01': ({ t_days, exp_mm }) => byIntervals(t_days, exp_mm, 30),
    'ASA-02': ({ t_days, terzaghi_mm, from_t }) => byIntervals(t_days, terzaghi_mm, 30, from_t),
    'ASA-03': ({ t_days, noisy_mm, from_t }) => byIntervals(t_days, noisy_mm, 30, from_t),
    'ASA-04': ({ b1, H_m, dt_d }) => consolidationCoefficient(b1, H_m, dt_d),
    'ASA-05': ({ s_mm }) =>
      byIntervals(
        s_mm.map((_: number, at: number) => at),
        s_mm,
        1,
      ),
    'HYP-01': ({ t_days, exp_mm, terzaghi_mm, noisy_mm }) => {
      const final = (mm: readonly number[]) =>
        accepted(forecastByHyperbola(readings(t_days, mm), { fromDays: 90, untilDays: null }))
          .finalSettlementMm
      return { exp: final(exp_mm), terzaghi: final(terzaghi_mm), noisy: final(noisy_mm) }
    },
    'HYP-02': () => {
      const found = hyperbolaOfConsolidation(0.6, 0.9)
      return {
        slope: found.slope,
        ray60_over_slope: found.rayFromOverSlope,
        ray90_over_slope: found.rayToOverSlope,
      }
    },
    'HYP-03': ({ t, s }) => {
      const { fit, finalSettlementMm } = accepted(forecastByHyperbola(readings(t, s)))
      return { s_ult: finalSettlementMm, a: fit.intercept, b: fit.slope }
    },
  },
}
