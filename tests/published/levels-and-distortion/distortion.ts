import {
  beamStrains,
  bjerrumLimits,
  crackWidthGuide,
  type DistortionLimit,
  damageCategories,
  damageCategory,
  riskClass,
  riskClasses,
  skemptonLimits,
  withHorizontalStrain,
} from '#domain/ground/building-damage.ts'
import { distortionOf } from '#domain/ground/distortion.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'

const limitsOf = (limits: readonly DistortionLimit[], { events }: PublishedInputs) =>
  events.map((event: string) => limits.find((one) => one.event === event)?.radians)

/** On the line between two categories the source does not decide; the project counts it with the lower and says so. */
const categoryText = (strainPercent: number) => {
  const { category, onBoundary } = damageCategory(strainPercent)
  const next = damageCategories[damageCategories.findIndex((one) => one.category === category) + 1]
  if (onBoundary) return `${category}/${next?.category.slice(0, 1)} boundary`
  return category.includes('-') ? category : Number(category)
}

const riskTexts = () =>
  riskClasses.map(({ name, slopeBelowOneIn, settlementBelowMm }, index) => {
    const before = riskClasses[index - 1]
    const slope = (oneIn: number | null | undefined) => `1/${oneIn}`
    if (before === undefined) return [name, `<${slope(slopeBelowOneIn)}`, `<${settlementBelowMm} mm`]
    if (slopeBelowOneIn === null)
      return [name, `>${slope(before.slopeBelowOneIn)}`, `>${before.settlementBelowMm} mm`]
    return [
      name,
      `${slope(before.slopeBelowOneIn)}-${slope(slopeBelowOneIn)}`,
      `${before.settlementBelowMm}-${settlementBelowMm} mm`,
    ]
  })

const beam = ({ L_m, H_m, E_over_G, deflection_ratio }: PublishedInputs) =>
  beamStrains(
    { lengthMetres: L_m, heightMetres: H_m, stiffnessRatio: E_over_G, mode: 'hogging' },
    100 * deflection_ratio,
  )

/** What is computed for the rows on distortion and damage. */
export const distortionComputed: PublishedTable['computed'] = {
  'TR-01': (inputs) => limitsOf(skemptonLimits, inputs),
  'TR-02': (inputs) => limitsOf(bjerrumLimits, inputs),
  'TR-03': ({ strain_percent }) => strain_percent.map(categoryText),
  'TR-04': () => [...crackWidthGuide],
  'TR-05': ({ cases }) =>
    cases.map(([settlement, slope]: [number, number]) => riskClass(settlement, slope).name === 'negligible'),
  'TR-06': riskTexts,
  'TR-07': (inputs) => {
    const { bending, diagonal } = beam(inputs)
    return { bending_strain_percent: bending, diagonal_strain_percent: diagonal }
  },
  'TR-08': (inputs) => {
    const { bending, diagonal } = withHorizontalStrain(beam(inputs), inputs.eps_h_percent, inputs.E_over_G)
    return { bending_total_percent: bending, diagonal_total_percent: diagonal }
  },
  'TR-09': ({ x_m, settlement_mm }) => {
    const made = distortionOf(
      x_m.map((chainageMetres: number, at: number) => ({
        chainageMetres,
        settlementMm: settlement_mm[at],
      })),
    )
    return made.ok
      ? {
          tilt_mm_per_m: made.value.tiltMmPerM,
          angular_distortion_mm_per_m: made.value.angularDistortionMmPerM,
          max_deflection_mm: made.value.greatestDeflectionMm,
          deflection_ratio: made.value.deflectionRatio,
        }
      : null
  },
}
