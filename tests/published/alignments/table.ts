import { stationOf } from '#domain/geometry/alignment.ts'
import {
  type AlignmentElement,
  bearingAlong,
  pointOnAlignment,
  stationOnAlignment,
} from '#domain/geometry/curved-alignment.ts'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import type { PublishedTable } from '../published-row.ts'
import { alignmentsRows } from './rows.ts'

/** The line of AL-01, which AL-02 and AL-03 go on with. */
const bentLine = [
  [0, 0],
  [100, 0],
  [100, 100],
] as const
const startChainageMetres = 1000

export const alignments: PublishedTable = {
  area: 'alignments',
  rows: alignmentsRows,
  computed: {
    'AL-01': ({ points }) => {
      const stations = points.map((point: readonly [number, number]) =>
        stationOf(bentLine, point, { startChainageMetres }),
      ) as NonNullable<ReturnType<typeof stationOf>>[]
      return {
        chainage: stations.map((one) => one.chainageMetres),
        offset: stations.map((one) => one.offsetMetres),
      }
    },
    // The project names one place, the lower chainage; travelled the other way, the line gives the other one.
    'AL-02': ({ point }) => {
      const station = stationOf(bentLine, point, { startChainageMetres })
      const back = stationOf(bentLine.toReversed(), point)
      return {
        distance: station?.distanceMetres,
        candidates: [station?.chainageMetres, startChainageMetres + 200 - (back?.chainageMetres ?? 0)],
      }
    },
    'AL-03': ({ point }) => {
      const clamped = stationOf(bentLine, point, { startChainageMetres })
      const extrapolated = stationOf(bentLine, point, { startChainageMetres, extended: true })
      return {
        clamped: { chainage: clamped?.chainageMetres, distance: clamped?.distanceMetres },
        extrapolated: { chainage: extrapolated?.chainageMetres, offset: extrapolated?.offsetMetres },
      }
    },
    'AL-04': ({ R_m, arc_m }) => {
      const [E, N] = pointOnAlignment(curveRight(R_m), arc_m) ?? []
      return { E, N, heading_deg: bearingAlong(curveRight(R_m)[0] as AlignmentElement, arc_m) }
    },
    'AL-05': ({ R_m, point }) => {
      const station = stationOnAlignment(curveRight(R_m), point)
      return { chainage: station?.chainageMetres, offset_right: station?.offsetMetres }
    },
    'AL-06': ({ E, N, E0, N0, azimuth_deg }) => {
      const azimuth = (azimuth_deg * Math.PI) / 180
      const end = [E0 + 500 * Math.sin(azimuth), N0 + 500 * Math.cos(azimuth)] as const
      const position = { eastingMetres: E, northingMetres: N, levelMetres: 0 }
      const [on] = projectOntoSection([[E0, N0], end], [position], 50)
      return { distance: on?.chainageMetres, offset_right: on?.offsetMetres }
    },
  },
}

/** From (0, 0), heading north. */
function curveRight(radiusMetres: number): readonly AlignmentElement[] {
  return [
    {
      startChainageMetres: 0,
      startEastingMetres: 0,
      startNorthingMetres: 0,
      startBearingDegrees: 0,
      lengthMetres: 400,
      radiusMetres,
      hand: 'right',
    },
  ]
}
