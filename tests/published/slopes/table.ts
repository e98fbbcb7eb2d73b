import { closureMm, closureShare, convergenceOfTargets } from '#domain/ground/convergence/face-advance.ts'
import { ratesOverLag, velocityBeforeFailure } from '#domain/ground/slopes/failure-forecast.ts'
import { velocityClass, velocityClasses } from '#domain/ground/slopes/velocity-class.ts'
import { failureInstant } from '#domain/levels/failure-time.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { slopeRows } from './rows.ts'

const dayMs = 86_400_000
/** The line over rates of two readings, and where it reaches 0, in days. */
const line = (days: readonly number[], mm: readonly number[], fromDays = 0) => {
  const rates = ratesOverLag(
    days.map((day, at) => ({ atEpochMs: day * dayMs, movementMm: mm[at] as number })),
    2,
  ).filter(({ atEpochMs }) => atEpochMs >= fromDays * dayMs)
  const start = rates[0]?.atEpochMs ?? 0
  const found = accepted(
    failureInstant(
      rates.map(({ atEpochMs }) => atEpochMs),
      rates.map(({ mmPerDay }) => mmPerDay),
    ),
  )
  const { slope, intercept } = found.inverseRate
  return { intercept: intercept - slope * start, slope: slope * dayMs, tf_d: found.atEpochMs / dayMs }
}
const velocity = ({ A, alpha, time_to_failure_d }: PublishedInputs) =>
  velocityBeforeFailure(A, alpha, time_to_failure_d)

export const slopes: PublishedTable = {
  area: 'slopes',
  rows: slopeRows,
  computed: {
    'INV-03': ({ t, v }) => accepted(failureInstant(t, v)).atEpochMs,
    'INV-05': velocity,
    'INV-06': velocity,
    'INV-07': ({ t_d, u_mm }) => line(t_d, u_mm),
    'INV-08': ({ t_d, u_noisy_mm }) => ({
      tf_all: line(t_d, u_noisy_mm).tf_d,
      tf_from_4d: line(t_d, u_noisy_mm, 4).tf_d,
    }),
    'INV-09': ({ t, v }) => {
      const found = failureInstant(t, v)
      return found.ok ? found.value.atEpochMs : null
    },
    'VEL-01': () => velocityClasses.slice(0, -1).map(({ belowMmPerSecond }) => belowMmPerSecond),
    'VEL-03': ({ mm_per_s }) => mm_per_s.map((one: number) => velocityClass(one).name),
    'CVG-01': ({ X_m, Cinf_mm, x_m }) =>
      x_m.map((x: number) => closureMm({ influenceMetres: X_m, finalMm: Cinf_mm }, x, 0)),
    'CVG-02': ({ X_m, x0_m }) => closureShare(X_m, x0_m),
    'CVG-03': ({ X_m, Cinf_mm, m, T_d, n, x_m, t_d }) =>
      t_d.map((days: number) =>
        closureMm(
          { influenceMetres: X_m, finalMm: Cinf_mm, creep: { share: m, timeDays: T_d, exponent: n } },
          x_m,
          days,
        ),
      ),
    'CVG-04': ({ A0, B0, A1, B1 }) => {
      const found = convergenceOfTargets([A0, B0], [A1, B1])
      return {
        L0_m: found.firstDistanceMetres,
        convergence_mm: found.convergenceMm,
        strain_percent: found.strainPercent,
      }
    },
  },
}
