import { bjerrumLimits, riskClasses, skemptonLimits } from './building-damage.ts'
import type { SlopeAspect } from './surface-aspects.ts'

/** A published value that a map of slopes may be read beside; never a state of the ground. */
export interface SlopeGuidance {
  /** 500 stands for 1:500. */
  readonly oneIn: number
  readonly says: string
  readonly source: string
  /** Of the part told, at or above it; says nothing without the area of which nothing is told. */
  readonly squareMetres: number
}

/** Values that people have written of buildings, the flattest first. */
export function guidanceOf(aspect: SlopeAspect): readonly Omit<SlopeGuidance, 'squareMetres'>[] {
  if (aspect === 'slope')
    return riskClasses.flatMap(({ name, slopeBelowOneIn }) =>
      slopeBelowOneIn === null
        ? []
        : [
            {
              oneIn: slopeBelowOneIn,
              says: `end of the class of ${name} risk`,
              source: 'Rankin 1988, from memory',
            },
          ],
    )
  const of = (source: string) => (limit: { readonly event: string; readonly radians: number }) => ({
    oneIn: Math.round(1 / limit.radians),
    says: limit.event,
    source,
  })
  return [
    ...skemptonLimits.map(of('Skempton and MacDonald 1956')),
    ...bjerrumLimits.map(of('Bjerrum 1963')),
  ].toSorted((one, other) => other.oneIn - one.oneIn)
}

/** What must stand beside it. */
export const slopeGuidanceCaution =
  'Published guidance on buildings of its authors’ time, told as it was written: a building does not follow the ground, its own slope and distortion are measured on it, and the class of a slope needs the settlement too. No state on this page is coloured by it.'
