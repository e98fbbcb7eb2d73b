import { logGamma } from '../statistics/incomplete-beta.ts'

/** Logarithm of the density of Student's t with unit scale; of the normal distribution for infinite degrees of freedom. */
export function logDensityOf(degreesOfFreedom: number): (residual: number) => number {
  if (!Number.isFinite(degreesOfFreedom)) {
    const constant = -Math.log(2 * Math.PI) / 2
    return (residual) => constant - (residual * residual) / 2
  }
  const half = degreesOfFreedom / 2
  const constant = logGamma(half + 0.5) - logGamma(half) - Math.log(degreesOfFreedom * Math.PI) / 2
  return (residual) => constant - (half + 0.5) * Math.log1p((residual * residual) / degreesOfFreedom)
}
