import { displacementBy, type Hole, positionAtDepth } from '#domain/geometry/hole.ts'
import { courseBetween, doglegRadians, type HoleStation, ratioFactor } from '#domain/geometry/hole-course.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { holesRows } from './rows.ts'

export const holes: PublishedTable = {
  area: 'holes',
  rows: holesRows,
  computed: {
    'BH-01': ({ collar, azimuth_deg, dip_below_horizontal_deg, MD_m }) =>
      place(positionAtDepth(holeAt(collar, azimuth_deg, dip_below_horizontal_deg), MD_m)),
    // The misreading: the dip of BH-01 as an inclination from the vertical, so that the hole dips at the rest of 90°.
    'BH-02': ({ collar, azimuth_deg, inclination_from_vertical_deg, MD_m }) =>
      place(positionAtDepth(holeAt(collar, azimuth_deg, 90 - inclination_from_vertical_deg), MD_m)),
    'BH-03': (inputs) => {
      const [from, to] = stations(inputs) as [HoleStation, HoleStation]
      const [east, north, tvd] = courseBetween(from, to)
      const dogleg = doglegRadians(from, to)
      return { north, east, tvd, dogleg_rad: dogleg, ratio_factor: ratioFactor(dogleg) }
    },
    'BH-04': (inputs) => {
      const survey = stations(inputs)
      const foot = positionAtDepth({ ...holeAt([0, 0, 0], 0, 90), survey }, 120)
      return { north: foot.northingMetres, east: foot.eastingMetres, tvd: -foot.levelMetres }
    },
    'BH-05': (inputs) => ({
      balanced: displacementBy(stations(inputs), 'balanced-tangential')[2],
      tangential: displacementBy(stations(inputs), 'tangential')[2],
    }),
    'BH-06': ({ inc_deg, MD_m }) => {
      const { eastingMetres, northingMetres, levelMetres } = positionAtDepth(
        holeAt([0, 0, 0], 90, 90 - inc_deg),
        MD_m,
      )
      return { horizontal: Math.hypot(eastingMetres, northingMetres), tvd: -levelMetres }
    },
  },
}

function holeAt(
  [eastingMetres, northingMetres, collarLevelMetres]: number[],
  azimuth: number,
  dip: number,
): Hole {
  return {
    eastingMetres: eastingMetres ?? 0,
    northingMetres: northingMetres ?? 0,
    collarLevelMetres: collarLevelMetres ?? 0,
    azimuthDegrees: azimuth,
    dipDegrees: dip,
  }
}

/** Rows give inclination from the vertical. */
function stations({ MD, inc_deg, azi_deg }: PublishedInputs): HoleStation[] {
  return MD.map((depthMetres: number, index: number) => ({
    depthMetres,
    azimuthDegrees: azi_deg[index],
    dipDegrees: 90 - inc_deg[index],
  }))
}

function place({ eastingMetres, northingMetres, levelMetres }: ReturnType<typeof positionAtDepth>) {
  return { E: eastingMetres, N: northingMetres, Z: levelMetres }
}
