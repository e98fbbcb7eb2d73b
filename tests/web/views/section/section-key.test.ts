import { expect, test } from 'vitest'
import { openSiteGrid } from '#domain/geometry/site-grid.ts'
import { sectionKey } from '../../../../web/views/section/section-key.ts'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import type { SectionHole, SectionProps } from '../../../../web/views/section/section-props.ts'

const opened = openSiteGrid('EPSG:3857')
if (!opened.ok) throw new Error('the grid of the test cannot be opened')

const hole = (id: string, eastingMetres: number, northingMetres: number): SectionHole => ({
  id,
  eastingMetres,
  northingMetres,
  collarLevelMetres: 4,
  azimuthDegrees: 0,
  dipDegrees: 90,
  lengthMetres: 10,
  strata: [{ name: 'Clay', topLevelMetres: 4, baseLevelMetres: -6 }],
})

const props: SectionProps = {
  line: [
    [0, 0],
    [100, 0],
  ],
  grid: opened.value,
  datum: 'site datum',
  groundLevelMetres: 4,
  waterUnitWeightKnPerM3: 9.81,
  works: { type: 'FeatureCollection', features: [] },
  alignments: [],
  holes: [hole('BH-1', 10, 0), hole('BH-2', 90, 4)],
  points: [],
  shapes: [],
  wells: [],
  clockEpochMs: 0,
  timeZone: 'UTC',
  offsetLimitMetres: 10,
  trueScale: true,
  joinLayersWithinMetres: 30,
  movementExaggeration: 100,
  levelCount: 2,
  selectedPoint: null,
  remarks: [],
  waiting: false,
}

const meanings = (shown: SectionProps) =>
  sectionKey(shown, layOutSection(shown, { widthPixels: 900, heightPixels: 600, fontPixels: 13 })).map(
    ({ means }) => means,
  )

test('the key names what the section shows and nothing else', () => {
  expect(meanings(props)).toEqual([
    'Clay, met in a hole',
    'layer guessed between holes too far apart',
    'hole on the line',
    'hole brought onto the line from aside, its offset beside its name',
  ])
  expect(meanings({ ...props, joinLayersWithinMetres: 100 })).toContain(
    'layer taken as straight between holes',
  )
  expect(meanings({ ...props, holes: [] })).toEqual([])
})
