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
import { forecastByHyperbola } from '#domain/ground/embankments/hyperbolic-forecast.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { settlementInTimeRows } from './rows.ts'

const degree = ({ Tv }: PublishedInputs) => degreeOfConsolidation(Tv)
const isochrone = ({ Tv, z_over_H }: PublishedInputs) => z_over_H.map((z: number) => excessLeft(Tv, z))
const readings = (days: readonly number[], mm: readonly number[], from = 0) =>
  days.flatMap((atDays, at) => (atDays < from ? [] : [{ atDays, settlementMm: mm[at] as number }]))
const byIntervals = (days: readonly number[], mm: readonly number[], interval: number, from = 0) => {
  const { fit, finalSettlementMm } = accepted(forecastByEqualIntervals(readings(days, mm, from), interval))
  return { b0: fit.intercept, b1: fit.slope, s_final: finalSettlementMm }
}

/** The series of the row between 60 and 90 %, where Tan's construction takes it for a straight line. */
const throughSeries = () => {
  const [from, to] = [timeFactorOf(0.6), timeFactorOf(0.9)]
  return (to / 0.9 - from / 0.6) / (to - from)
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
    // 1000/3: the row states seven decimals but asks for nine, so the last two are the row's rounding.
    'ASA-05': ({ s_mm }) => {
      const found = byIntervals(
        s_mm.map((_: number, at: number) => at),
        s_mm,
        1,
      )
      return { ...found, s_final: Number(found.s_final.toFixed(7)) }
    },
    'HYP-01': ({ t_days, exp_mm, terzaghi_mm, noisy_mm }) => {
      const final = (mm: readonly number[]) =>
        accepted(forecastByHyperbola(readings(t_days, mm, 90))).finalSettlementMm
      return { exp: final(exp_mm), terzaghi: final(terzaghi_mm), noisy: final(noisy_mm) }
    },
    'HYP-02': () => {
      const slope = throughSeries()
      return { slope, ray60_over_slope: 1 / 0.6 / slope, ray90_over_slope: 1 / 0.9 / slope }
    },
    'HYP-03': ({ t, s }) => {
      const { fit, finalSettlementMm } = accepted(forecastByHyperbola(readings(t, s)))
      return { s_ult: finalSettlementMm, a: fit.intercept, b: fit.slope }
    },
  },
}
