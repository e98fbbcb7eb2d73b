import type * as maplibregl from 'maplibre-gl'
import { baseStyle } from './base-style.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { siteBounds } from './site-bounds.ts'
import { worksAt } from './works-phases.ts'

/** The drawing under the measuring points, as the props have it. */
export function styleOf(props: PlanMapProps): maplibregl.StyleSpecification {
  const [, south, , north] = siteBounds(props)
  const works = worksAt(props.works, props.atEpochMs)
  return baseStyle(props.palette, works, (south + north) / 2, props.scale, props.leastTextPixels)
}
