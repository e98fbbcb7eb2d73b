import type { Feature, FeatureCollection, Geometry } from 'geojson'
import type { Works, WorksProperties } from '#domain/site/site.ts'

/** Whether a part of the works is still to come, there, or gone at an instant. */
export type Phase = 'to-come' | 'there' | 'gone'

export type PhasedWorks = FeatureCollection<Geometry, WorksProperties & { readonly phase: Phase }>

export function phaseAt(part: WorksProperties, atEpochMs: number): Phase {
  if (part.fromEpochMs !== null && atEpochMs < part.fromEpochMs) return 'to-come'
  if (part.untilEpochMs !== null && atEpochMs >= part.untilEpochMs) return 'gone'
  return 'there'
}

/** The works as they are at an instant. What is gone is left out; what is to come is told by its phase. */
export function worksAt(works: Works, atEpochMs: number): PhasedWorks {
  const features: Feature<Geometry, WorksProperties & { readonly phase: Phase }>[] = []
  for (const feature of works.features) {
    const phase = phaseAt(feature.properties, atEpochMs)
    if (phase !== 'gone') features.push({ ...feature, properties: { ...feature.properties, phase } })
  }
  return { type: 'FeatureCollection', features }
}

/** Changes exactly when `worksAt` changes, so that the map is not given the same works twice. */
export function phaseSignature(works: Works, atEpochMs: number): string {
  return works.features.map((feature) => phaseAt(feature.properties, atEpochMs)).join(' ')
}
