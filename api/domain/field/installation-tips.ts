import { positionAtDepth, type SitePosition } from '../geometry/hole.ts'
import type { InstallationBody, PointDraft } from './field-bodies.ts'

type Placed = Pick<
  InstallationBody,
  'eastingMetres' | 'northingMetres' | 'collarLevelMetres' | 'azimuthDegrees' | 'dipDegrees'
>

/**
 * Where a measuring point lies, from collar, bearing, dip and depth of a straight hole; null while one of them is missing.
 * Without a bearing and dip, as at a surface point, straight down.
 */
export function tipOf(body: Placed, { depthMetres }: Pick<PointDraft, 'depthMetres'>): SitePosition | null {
  const { eastingMetres, northingMetres, collarLevelMetres } = body
  if (eastingMetres === null || northingMetres === null || collarLevelMetres === null) return null
  return positionAtDepth(
    {
      eastingMetres,
      northingMetres,
      collarLevelMetres,
      azimuthDegrees: body.azimuthDegrees ?? 0,
      dipDegrees: body.dipDegrees ?? 90,
    },
    depthMetres,
  )
}
