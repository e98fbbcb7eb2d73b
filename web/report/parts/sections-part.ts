import { alignmentsOfWorks, type WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { sectionOnAlignment } from '../../panels/alignment-sentences.ts'
import { sectionScene } from '../../views/section/scene.ts'
import { sectionFromSite } from '../../views/section/section-from-site.ts'
import { sectionRemarks, sectionTable } from '../../views/section/section-table.ts'
import { type Block, type Figure, heading, list, paragraph, type Table } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { wordsOf } from './report-words.ts'

const mostSections = 3
const reachMetres = 30
const offsetLimitMetres = 6
/** Sections nearer than this show the same ground. */
const leastApartMetres = 20
const leastPoints = 3

export interface SectionShown {
  readonly figure: Figure
  readonly table: Table
  readonly remarks: readonly string[]
}

/** Cuts across the alignments of the works where most measuring points stand. */
export function sectionsPart(sources: ReportSources, readings: ReportReadings): readonly Block[] {
  const { site } = sources.now
  const part = heading(1, 'Sections')
  const opened = openGridOfSite(site.facts, site.controlPoints)
  if (!opened.ok) return [part, paragraph('The grid of the site cannot be read, so no section is drawn.')]
  const alignments = alignmentsOfWorks(site.works, site.alignmentElements, opened.value)
  if (alignments.length === 0)
    return [
      part,
      paragraph(
        'The works have no alignment across which a section could be cut. Sections that somebody chose stand at the end.',
      ),
    ]
  const cuts = alignments.flatMap((alignment) =>
    chainagesWithPoints(alignment, site.points).map((chainage) => ({ alignment, chainage })),
  )
  if (cuts.length === 0)
    return [
      part,
      paragraph(
        `Nowhere along an alignment do ${leastPoints} measuring points stand near one cut, so none is drawn.`,
      ),
    ]
  return [
    part,
    ...cuts.slice(0, mostSections).flatMap(({ alignment, chainage }, place): Block[] => {
      const line = sectionOnAlignment(alignment, { across: chainage, reachMetres })
      if (!line) return []
      const name = `Across ${alignment.name} at chainage ${chainage} m`
      const shown = sectionShown(sources, readings, opened.value, {
        line,
        caption: name,
        id: `section-${place + 1}`,
      })
      return [heading(2, name), shown.figure, list(shown.remarks), shown.table]
    }),
  ]
}

/** Whole tens of metres along an alignment at which most points stand beside a cut, most first, none twice. */
function chainagesWithPoints(
  alignment: WorksAlignment,
  points: readonly { readonly eastingMetres: number; readonly northingMetres: number }[],
): readonly number[] {
  const counts = new Map<number, number>()
  for (const { eastingMetres, northingMetres } of points) {
    const station = alignment.stationOf([eastingMetres, northingMetres])
    if (!station || station.beyond !== null || Math.abs(station.offsetMetres) > reachMetres) continue
    const chainage = Math.round(station.chainageMetres / 10) * 10
    if (Math.abs(station.chainageMetres - chainage) > offsetLimitMetres) continue
    counts.set(chainage, (counts.get(chainage) ?? 0) + 1)
  }
  const most = [...counts]
    .filter(([, count]) => count >= leastPoints)
    .sort((one, other) => other[1] - one[1] || one[0] - other[0])
  const chosen: number[] = []
  for (const [chainage] of most)
    if (chosen.every((one) => Math.abs(one - chainage) >= leastApartMetres)) chosen.push(chainage)
  return chosen
}

/** One section at the end of the period, as the page draws it, with its numbers. */
export function sectionShown(
  sources: Pick<ReportSources, 'manifest' | 'now'>,
  readings: Pick<ReportReadings, 'atEnd'>,
  grid: SiteGrid,
  wanted: {
    readonly line: readonly SitePoint[]
    readonly caption: string
    readonly id: string
    readonly clockEpochMs?: number
  },
): SectionShown {
  const { site } = sources.now
  const clockEpochMs = wanted.clockEpochMs ?? sources.manifest.untilEpochMs
  const props = sectionFromSite(site, grid, readings.atEnd, {
    line: wanted.line,
    clockEpochMs,
    offsetLimitMetres,
    trueScale: false,
    joinLayersWithinMetres: 30,
    movementExaggeration: 100,
    selectedPoint: null,
    remarks: [],
    waiting: false,
  })
  const { caption, headings, rows } = sectionTable(props, site.facts.levelNames)
  return {
    figure: {
      block: 'figure',
      caption: wanted.caption,
      alternative: `Section ${wordsOf(sources).at(clockEpochMs)}: ground, layers between holes, works, and ${rows.length} measuring points within ${offsetLimitMetres} m of the line. Movements are drawn 100 times larger than levels.`,
      scope: 'section',
      scene: (room) => sectionScene(props, room),
      aspect: 1.5,
      tableId: wanted.id,
    },
    table: {
      block: 'table',
      id: wanted.id,
      caption,
      columns: headings.map((head, place) => (place === 0 ? { head, rowHeader: true } : { head })),
      rows,
    },
    remarks: sectionRemarks(props),
  }
}
