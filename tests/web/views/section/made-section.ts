import { openSiteGrid } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'
import { sectionScene } from '../../../../web/views/section/scene.ts'
import type { SectionPoint, SectionProps } from '../../../../web/views/section/section-props.ts'

const opened = openSiteGrid('EPSG:3857')

if (!opened.ok) throw new Error('the grid of the test cannot be opened')

export const grid = opened.value

export const size = { widthPixels: 1100, heightPixels: 700, fontPixels: 13 }

export const dayMs = 86_400_000

export const ring = (corners: readonly (readonly [number, number])[]) =>
  [...corners, corners[0] as readonly [number, number]].map((corner) => [...grid.toLngLat(corner)])

export const works: Works = {
  type: 'FeatureCollection',
  features: [
    feature(
      'dig-1',
      'excavation',
      ring([
        [20, -10],
        [60, -10],
        [60, 10],
        [20, 10],
      ]),
      4,
      -2,
      10,
      20,
    ),
    feature(
      'dig-2',
      'excavation',
      ring([
        [20, -10],
        [60, -10],
        [60, 10],
        [20, 10],
      ]),
      4,
      -5,
      20,
      null,
    ),
    feature(
      'wall',
      'wall',
      ring([
        [19, -10],
        [20, -10],
        [20, 10],
        [19, 10],
      ]),
      4,
      -18,
      5,
      null,
    ),
  ],
}

export function feature(
  id: string,
  kind: 'excavation' | 'wall',
  coordinates: number[][],
  topLevelMetres: number,
  baseLevelMetres: number,
  fromDay: number,
  untilDay: number | null,
): Works['features'][number] {
  return {
    type: 'Feature',
    geometry: { type: 'Polygon', coordinates: [coordinates] },
    properties: {
      id,
      kind,
      name: id,
      barrier: kind === 'wall',
      fromEpochMs: fromDay * dayMs,
      untilEpochMs: untilDay === null ? null : untilDay * dayMs,
      topLevelMetres,
      baseLevelMetres,
    },
  }
}

export const strata = [{ name: 'Clay', topLevelMetres: 1, baseLevelMetres: -5 }]

export const hole = (id: string, eastingMetres: number, northingMetres: number) => ({
  id,
  eastingMetres,
  northingMetres,
  collarLevelMetres: 4,
  azimuthDegrees: 90,
  dipDegrees: 90,
  lengthMetres: 20,
  strata,
})

export const tip = (changes: Partial<SectionPoint>): SectionPoint => ({
  point: 'PZ-09C',
  kind: 'piezometer',
  measure: 'pore-pressure',
  eastingMetres: 10,
  northingMetres: 3,
  levelMetres: -14,
  stratum: null,
  standing: 'within',
  value: 98.1,
  unit: 'kPa',
  decimals: 1,
  ageMs: 3_600_000,
  silent: false,
  notes: [],
  ...changes,
})

export const section: SectionProps = {
  line: [
    [0, 0],
    [100, 0],
  ],
  grid,
  datum: 'site datum',
  groundLevelMetres: 4,
  waterUnitWeightKnPerM3: 9.81,
  works,
  alignments: [],
  holes: [hole('PZ-09', 10, 3), hole('PZ-10', 80, -4), hole('PZ-11', 50, 60)],
  points: [
    tip({}),
    tip({ point: 'PZ-10C', eastingMetres: 80, northingMetres: -4, standing: 'late' }),
    tip({ point: 'PZ-11C', northingMetres: 60 }),
  ],
  shapes: [],
  wells: [],
  clockEpochMs: 30 * dayMs,
  timeZone: 'UTC',
  offsetLimitMetres: 10,
  joinLayersWithinMetres: 30,
  trueScale: false,
  movementExaggeration: 100,
  levelCount: 2,
  selectedPoint: null,
  remarks: [],
  waiting: false,
}

export const drawn = (changes: Partial<SectionProps> = {}) =>
  allMarks(sectionScene({ ...section, ...changes }, size))

export const has = (mark: Mark, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)
