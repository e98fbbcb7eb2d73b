import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import type { Works } from './site.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** Wells and aquifers name layers that were met, a screen stands upright, and a boundary is a line of the works with its kind. */
export function checkWells(site: SiteReadings, works: Works | null): readonly Issue[] {
  const strata = new Set(site.strata.sound.map(({ row }) => row.stratum))
  const stratumFault = (table: 'wells' | 'aquifers', line: number, stratum: string): readonly Issue[] => {
    if (strata.size === 0 || strata.has(stratum)) return []
    const nearest = nearestWord(stratum, strata)
    return [
      {
        ...cellIssue(table, line, 'stratum', stratum),
        code: 'stratum-unknown',
        expected: `a layer named in ${site.strata.file}`,
        message: `No hole has a layer "${stratum}". ${nearest ? `Did you mean "${nearest}"?` : 'Correct it.'}`,
      },
    ]
  }
  return [
    ...site.aquifers.sound.flatMap(({ line, row }) => [
      ...stratumFault('aquifers', line, row.stratum),
      ...boundaryFaults(line, row, works),
    ]),
    ...site.wells.sound.flatMap(({ line, row }): Issue[] => {
      const { screenTopLevelMetres: top, screenBaseLevelMetres: base } = row
      const faults = [...stratumFault('wells', line, row.stratum)]
      if (top !== null && base !== null && top <= base)
        faults.push({
          ...cellIssue('wells', line, 'screenTopLevelMetres', top),
          code: 'top-below-base',
          expected: `above screenBaseLevelMetres, ${base}`,
          message: `The top of the screen, ${top} m, is not above its base, ${base} m. Levels are up positive.`,
        })
      return faults
    }),
  ]
}

function boundaryFaults(
  line: number,
  row: { readonly boundaryLine: string | null; readonly boundaryKind: string | null },
  works: Works | null,
): readonly Issue[] {
  const { boundaryLine, boundaryKind } = row
  if (boundaryLine === null && boundaryKind === null) return []
  if (boundaryLine === null || boundaryKind === null) {
    const column = boundaryLine === null ? 'boundaryLine' : 'boundaryKind'
    return [
      {
        ...cellIssue('aquifers', line, column, row[column]),
        code: 'boundary-half-stated',
        expected: 'both boundaryLine and boundaryKind, or neither',
        message: `A boundary needs its line and what it does to the water. Fill in ${column}, or leave both empty.`,
      },
    ]
  }
  if (!works) return []
  const lines = works.features.flatMap(({ geometry, properties }) =>
    geometry.type === 'LineString' ? [properties.id] : [],
  )
  if (lines.includes(boundaryLine)) return []
  const nearest = nearestWord(boundaryLine, lines)
  return [
    {
      ...cellIssue('aquifers', line, 'boundaryLine', boundaryLine),
      code: 'boundary-unknown',
      expected: 'the id of a LineString of works.geojson',
      message: `There is no line "${boundaryLine}" in works.geojson. ${nearest ? `Did you mean "${nearest}"?` : 'Draw it there, or correct the name.'}`,
    },
  ]
}
