import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { readAddress } from '../../state/address.ts'
import type { AddressState } from '../../state/address-state.ts'
import { type Block, heading, list, paragraph } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { historyFigure } from './histories-part.ts'
import { asMeasured, isAsKnown, planView } from './plan-view-part.ts'
import { profileShown } from './profiles-part.ts'
import { sectionShown } from './sections-part.ts'

type View = ReportSources['manifest']['views'][number]

/** Views of the page that somebody chose to put in, each drawn at the clock of its address, never after the period. */
export async function chosenViewsPart(
  sources: ReportSources,
  readings: ReportReadings,
): Promise<readonly Block[]> {
  const { views } = sources.manifest
  if (views.length === 0) return []
  const blocks: Block[] = [heading(1, 'Chosen views')]
  for (const [place, view] of views.entries()) {
    sources.onProgress?.(`View ${place + 1}: ${view.caption} …`, 0.75)
    blocks.push(
      heading(2, view.caption || `View ${place + 1}`),
      ...(await viewBlocks(sources, readings, view, readAddress(view.address), place)),
    )
  }
  return blocks
}

async function viewBlocks(
  sources: ReportSources,
  readings: ReportReadings,
  { caption }: View,
  state: AddressState,
  place: number,
): Promise<readonly Block[]> {
  const { manifest, now } = sources
  const { site } = now
  const counted = isAsKnown(state) ? [`In this view ${asMeasured}`] : []
  const point = state.selection.kind === 'point' ? state.selection.point : null
  const instrument = site.instruments.find(({ id }) =>
    state.selection.kind === 'instrument'
      ? id === state.selection.instrument
      : id === site.points.find((one) => one.id === point)?.instrument,
  )
  if (state.tab === 'section' && state.sectionLine.length >= 2) {
    const opened = openGridOfSite(site.facts, site.controlPoints)
    if (!opened.ok) return [paragraph('The grid of the site cannot be read, so this section is not drawn.')]
    const line = state.sectionLine.map(
      ({ eastingMetres, northingMetres }) => [eastingMetres, northingMetres] as const,
    )
    const shown = sectionShown(sources, readings, opened.value, { line, caption, id: `view-${place + 1}` })
    return [shown.figure, list([...counted, ...shown.remarks]), shown.table]
  }
  if (state.tab === 'profile' && instrument) {
    const dates = state.profileDates.filter((date) => date <= manifest.cutOffEpochMs)
    const atEpochMs = [manifest.untilEpochMs, ...dates]
    const along = (axis: typeof state.profileAxis) =>
      profileShown(sources, readings, instrument, { axis, atEpochMs })
    // One that cannot be turned that way is shown along A, as on the page.
    const shown = (await along(state.profileAxis)) ?? (await along('a'))
    if (shown)
      return [
        { ...shown.figure, tableId: `view-${place + 1}` },
        list([...counted, ...shown.remarks]),
        { ...shown.table, id: `view-${place + 1}` },
      ]
  }
  if (state.tab === 'history' && state.selection.kind !== 'nothing') {
    const { selection } = state
    const series = site.series.filter((one) =>
      selection.kind === 'point'
        ? one.point === selection.point && (selection.measure === null || one.measure === selection.measure)
        : instrument?.points.includes(one.point) || one.point === selection.instrument,
    )
    if (series.length > 0) {
      const first = Math.min(...site.stages.map(({ startsAt }) => startsAt), manifest.fromEpochMs)
      const { figure, remarks } = await historyFigure(sources, series.slice(0, 6), {
        fromEpochMs: first,
        untilEpochMs: manifest.untilEpochMs,
        caption,
      })
      return [figure, list([...counted, ...remarks])]
    }
  }
  // Beside whatever else was open the page shows its plan.
  return planView(sources, readings, state, { caption, id: `view-${place + 1}` })
}
