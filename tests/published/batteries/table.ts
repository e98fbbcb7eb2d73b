import { batteryLife } from '#domain/power/battery-life.ts'
import {
  coulombsOf,
  meanMicroamps,
  meanMicroampsOverYears,
  secondsAsDearAsSleep,
  uplinkMillicoulombs,
  wattHoursOf,
} from '#domain/power/charge-budget.ts'
import { daysToLimit } from '#domain/power/days-left.ts'
import { voltageTrend } from '#domain/power/voltage-trend.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { batteryRows } from './rows.ts'

const budget = ({
  sleep_uA,
  q_meas_mC,
  n_meas,
  q_tx_mC,
  n_tx,
  cap_mAh,
  usable_fraction = 0.7,
  self_discharge_per_yr = 0.02,
}: PublishedInputs) => {
  const microamps = meanMicroamps({
    sleepMicroamps: sleep_uA,
    readingMillicoulombs: q_meas_mC,
    readingsADay: n_meas,
    uplinkMillicoulombs: q_tx_mC,
    uplinksADay: n_tx,
  })
  const life = accepted(
    batteryLife(
      {
        milliampHours: cap_mAh,
        usableShare: usable_fraction,
        selfDischargePerYear: self_discharge_per_yr,
        shelfLifeYears: 10,
      },
      1,
      microamps,
    ),
  )
  return { I_avg_uA: microamps, years: life.yearsByCharge }
}

const readings = (days: readonly number[], volts: readonly number[], temperatures?: readonly number[]) =>
  days.map((atDays, at) => ({
    atDays,
    volts: volts[at] as number,
    temperatureDegC: temperatures?.[at] ?? null,
  }))

export const batteries: PublishedTable = {
  area: 'batteries',
  rows: batteryRows,
  computed: {
    'BAT-01': ({ I_tx_mA, ToA_s, I_rx_mA, rx_s, n_rx }) =>
      uplinkMillicoulombs(ToA_s, {
        transmitMilliamps: I_tx_mA,
        receiveMilliamps: I_rx_mA,
        windowSeconds: rx_s,
        windows: n_rx,
      }),
    'BAT-03': budget,
    'BAT-04': budget,
    'BAT-06': budget,
    'BAT-07': ({ capacity_mAh }) => {
      const oneYear = meanMicroampsOverYears(capacity_mAh, 1)
      const asleep = meanMicroampsOverYears(capacity_mAh, 6)
      // One message in five minutes makes the difference: 300 s of it, in millicoulombs.
      return {
        I_avg_1yr_uA: oneYear,
        I_sleep_6yr_uA: asleep,
        charge_per_message_mC: ((oneYear - asleep) * 300) / 1000,
      }
    },
    'BAT-08': ({ q_mC, I_sleep_uA }) => secondsAsDearAsSleep(q_mC, I_sleep_uA),
    'BAT-09': ({ t_d, V, cutoff_V }) => {
      const trend = accepted(voltageTrend(readings(t_d, V)))
      return {
        slope_V_per_d: trend.voltsPerDay,
        intercept_V: trend.voltsAtStart,
        days_to_cutoff_from_0: daysToLimit(trend.voltsAtStart, cutoff_V, trend.voltsPerDay),
      }
    },
    'BAT-10': ({ t_d, T_C, V }) => {
      const trend = accepted(voltageTrend(readings(t_d, V, T_C)))
      return { per_day: trend.voltsPerDay, per_degC: trend.voltsPerKelvin }
    },
    'BAT-11': ({ mAh, V }) => {
      const wattHours = wattHoursOf(mAh, V)
      return { C: coulombsOf(mAh), J: 3600 * wattHours, Wh: wattHours }
    },
  },
}
