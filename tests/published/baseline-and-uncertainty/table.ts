import { changeFromZeroUncertainty, detectableChange } from '#domain/baseline/detectable-change.ts'
import { effectiveCount } from '#domain/baseline/effective-count.ts'
import { meanUncertainty } from '#domain/baseline/mean-uncertainty.ts'
import { observerSpread, repeatabilityLimit } from '#domain/baseline/repeatability.ts'
import { changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import { correlationOf, observedTogether, propagate, uncertaintyOf } from '#domain/reduction/propagate.ts'
import { uncertaintySources } from '#domain/reduction/reading-uncertainty.ts'
import { combine } from '#domain/reduction/uncertainty.ts'
import {
  coverageFactorFor,
  effectiveDegreesOfFreedom,
  uncertaintyBudget,
} from '#domain/reduction/uncertainty-budget.ts'
import { fitLine, lineAt } from '#domain/statistics/least-squares.ts'
import { accepted } from '../accepted.ts'
import type { PublishedTable } from '../published-row.ts'
import { baselineAndUncertaintyRows } from './rows.ts'

const zero = ({ n, s_mm }: { n: number; s_mm: number }) => {
  const mean = meanUncertainty(s_mm, n)
  return { se: mean?.standardError, t95: mean?.factor, half_width: mean?.halfWidth }
}

export const baselineAndUncertainty: PublishedTable = {
  area: 'baseline and uncertainty',
  rows: baselineAndUncertaintyRows,
  computed: {
    'BAS-01': zero,
    'BAS-02': zero,
    'BAS-03': zero,
    'BAS-04': zero,
    'BAS-05': zero,
    // The row prints twelve digits and allows less than the last of them: rounded as it is printed.
    'BAS-06': ({ s_mm, n }: { s_mm: number; n: number[] }) =>
      n.map((count) => Number(changeFromZeroUncertainty(s_mm, count).toPrecision(12))),
    'BAS-07': ({ n, r1 }) => effectiveCount(n, r1),
    'BAS-08': ({ u }) => detectableChange(u),
    'BAS-09': ({ s_r, s_R }) => ({ r: repeatabilityLimit(s_r), R: repeatabilityLimit(s_R) }),
    'BAS-10': ({ x }) => {
      const spread = observerSpread(x)
      return {
        s_r: spread?.repeatability,
        s_L: spread?.between,
        s_R: spread?.reproducibility,
        F: spread?.varianceRatio,
      }
    },
    'UNC-01': ({ V, I_A, phi_rad }) => {
      // The measured quantities of the annex: what the propagation is given.
      const impedance = ([volts = 0, amperes = 0, phase = 0]: readonly number[]) => {
        const ratio = volts / amperes
        return [ratio * Math.cos(phase), ratio * Math.sin(phase), ratio]
      }
      const made = propagate(observedTogether([V, I_A, phi_rad]), impedance)
      const [R, X, Z] = made.values
      return {
        R,
        X,
        Z,
        u_R: uncertaintyOf(made, 0),
        u_X: uncertaintyOf(made, 1),
        u_Z: uncertaintyOf(made, 2),
        r_RX: correlationOf(made, 0, 1),
        r_RZ: correlationOf(made, 0, 2),
        r_XZ: correlationOf(made, 1, 2),
      }
    },
    'UNC-02': ({ t, b, t0 }: { t: number[]; b: number[]; t0: number }) => {
      const fit = accepted(
        fitLine(
          t.map((one) => one - t0),
          b,
        ),
      )
      const at30 = lineAt(fit, 30 - t0)
      return {
        y1: fit.intercept,
        u_y1: fit.interceptStandardError,
        y2: fit.slope,
        u_y2: fit.slopeStandardError,
        r: fit.correlation,
        s: fit.residualStandardDeviation,
        b30: at30.value,
        u_b30: at30.standardError,
      }
    },
    'UNC-03': ({ u, nu }: { u: number[]; nu: number[] }) => {
      const freedom = effectiveDegreesOfFreedom(
        u.map((standardUncertainty, at) => ({ standardUncertainty, degreesOfFreedom: nu[at] as number })),
      )
      return { uc: combine(...u), nu_eff: freedom, k99_for_16: coverageFactorFor(0.99, freedom) }
    },
    'UNC-04': ({ standard_uncertainties }) => {
      const { combined, expanded, largest } = uncertaintyBudget(standard_uncertainties)
      return { u: combined, U_k2: expanded, u_head_m: pressureHeadMetres(combined), largest }
    },
    'UNC-05': ({ u_cal, u_read }) => {
      const change = (independent: number | null) =>
        changeBetween(
          [
            {
              fromEpochMs: 0,
              commonSinceEpochMs: 0,
              standardUncertainty: combine(u_cal, u_read),
              independent,
            },
          ],
          1,
          2,
        )?.standardUncertainty
      // Taking both values as independent is the mistake that the row warns of: done where nothing is known to cancel.
      return { independent_wrong: change(null), offset_common: change(u_read) }
    },
    'UNC-06': ({ resolution_g }) => {
      const { raw } = uncertaintySources({
        calibration: null,
        rawResolution: resolution_g,
        temperatureStandardUncertainty: null,
        barometerStandardUncertainty: null,
      })
      return { u: raw, u_squared: (raw ?? Number.NaN) ** 2 }
    },
  },
}
