import { describe, expect, it } from 'vitest'
import { fitPathLoss } from '#domain/radio/path-loss-fit.ts'
import { fitLine } from '#domain/statistics/least-squares.ts'
import { normalQuantile } from '#domain/statistics/normal-quantile.ts'
import { accepted } from '../../published/accepted.ts'
import { coverageSpots } from '../../published/radio-links/spots.ts'

const signals = coverageSpots.map(({ metres, signalDbm }) => ({
  distanceMetres: metres,
  clearSignalDbm: signalDbm,
  atMost: false,
  inWorks: false,
}))
const normal = Number.POSITIVE_INFINITY

describe('path-loss fit', () => {
  it('is least squares where residuals are normal and nothing is bounded', () => {
    const fit = accepted(fitPathLoss(signals, null, normal))
    const line = accepted(
      fitLine(
        signals.map((one) => Math.log10(one.distanceMetres / 10)),
        signals.map((one) => one.clearSignalDbm),
      ),
    )
    expect(fit.signalAt10MetresDbm).toBeCloseTo(line.intercept, 4)
    expect(fit.exponent).toBeCloseTo(-line.slope / 10, 5)
    expect(fit.spreadDb).toBeCloseTo(line.residualStandardDeviation, 4)
    expect(fit.standardErrors.exponent).toBeCloseTo(line.slopeStandardError / 10, 4)
    expect(fit.standardErrors.signalAt10MetresDb).toBeCloseTo(line.interceptStandardError, 3)
    expect(fit.spreadDb).toBeCloseTo(3.7, 1)
  })

  it('predicts each spot from the others about as well as its spread says', () => {
    const errors = signals.map((left) => {
      const fit = accepted(
        fitPathLoss(
          signals.filter((one) => one !== left),
          null,
          normal,
        ),
      )
      const decades = Math.log10(left.distanceMetres / 10)
      return left.clearSignalDbm - (fit.signalAt10MetresDbm - 10 * fit.exponent * decades)
    })
    const rms = Math.sqrt(errors.reduce((sum, one) => sum + one * one, 0) / errors.length)
    expect(rms).toBeCloseTo(3.9, 1)
  })

  it('finds what it was made of, also where far spots were too weak to be measured', () => {
    const made = Array.from({ length: 60 }, (_, place) => {
      const distanceMetres = 20 + 12 * place
      const residual = 5 * normalQuantile(((place * 37) % 60) / 60 + 1 / 120)
      const signal = -45 - 30 * Math.log10(distanceMetres / 10) + residual
      const atMost = signal < -95
      return { distanceMetres, clearSignalDbm: atMost ? -95 : signal, atMost, inWorks: false }
    })
    const bounded = accepted(fitPathLoss(made, null, normal))
    expect(Math.abs(bounded.exponent - 3)).toBeLessThan(2 * bounded.standardErrors.exponent)
    const blind = accepted(
      fitPathLoss(
        made.filter(({ atMost }) => !atMost),
        null,
        normal,
      ),
    )
    // Without them only strong far spots are left, and the signal seems to fall off more slowly.
    expect(blind.exponent).toBeLessThan(bounded.exponent)
  })

  it('is hardly moved by one spot that lies far off', () => {
    const off = signals.map((one, place) =>
      place === 5 ? { ...one, clearSignalDbm: one.clearSignalDbm - 50 } : one,
    )
    const [robust, before] = [accepted(fitPathLoss(off)), accepted(fitPathLoss(signals))]
    expect(Math.abs(robust.exponent - before.exponent)).toBeLessThan(0.2)
  })

  it('finds what places inside the works lose besides', () => {
    const works = signals.map((one, place) =>
      place % 4 === 0 ? { ...one, inWorks: true, clearSignalDbm: one.clearSignalDbm - 20 } : one,
    )
    const { worksLoss } = accepted(fitPathLoss(works, 'find', normal))
    expect(worksLoss?.spots).toBe(6)
    expect(Math.abs((worksLoss?.lossDb ?? 0) - 20)).toBeLessThan(2 * (worksLoss?.standardErrorDb ?? 0))
  })

  it('is refused where spots do not say how the signal falls off', () => {
    const ring = signals.map((one) => ({ ...one, distanceMetres: 100 }))
    expect(fitPathLoss(signals.slice(0, 4)).ok).toBe(false)
    expect(fitPathLoss(ring).ok).toBe(false)
  })
})
