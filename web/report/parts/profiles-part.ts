import type { PlacedInstrument, Series } from '#contract/site-document.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { depthProfile } from '../../queries/depth-profile.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { kindNames } from '../../ui/kind-names.ts'
import {
  askedSeries,
  type ProfileAxis,
  profileFromSite,
  profileQuestion,
} from '../../views/depth-profile/profile-from-site.ts'
import type { DepthProfileProps } from '../../views/depth-profile/profile-props.ts'
import { profileRemarks, profileTable } from '../../views/depth-profile/profile-table.ts'
import { depthProfileScene } from '../../views/depth-profile/scene.ts'
import { type Block, type Figure, heading, list, paragraph, type Table } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { wordsOf } from './report-words.ts'
import { changeOf } from './values-part.ts'

const mostProfiles = 24
/** A change so many times its standard uncertainty is told from none (95 %, normal). */
const toldFromNone = 1.96

export interface ProfileShown {
  readonly figure: Figure
  readonly table: Table
  readonly remarks: readonly string[]
}

/** Strings of instruments of which some point moved in the period by more than the uncertainty of the change. */
export function stringsThatMoved(
  { manifest, now }: Pick<ReportSources, 'manifest' | 'now'>,
  readings: Pick<ReportReadings, 'atEnd' | 'atStart'>,
): readonly PlacedInstrument[] {
  return now.site.instruments.filter((instrument) => {
    if ((instrument.retiredAtEpochMs ?? Number.POSITIVE_INFINITY) <= manifest.fromEpochMs) return false
    const question = profileQuestion(now.site, instrument)
    return question !== null && question.series.length > 1 && question.series.some(moved(readings))
  })
}

const moved = (readings: Pick<ReportReadings, 'atEnd' | 'atStart'>) => (series: Series) => {
  const change = changeOf(series, readings)
  if (!change) return false
  // Where nothing is known of the uncertainty, whatever shows in the stated decimals counts.
  const least = change.standardUncertainty ?? 10 ** -series.decimals
  return Math.abs(change.value) > toldFromNone * least
}

/** Values by depth at both ends of the period, of every string that moved. */
export async function profilesPart(
  sources: ReportSources,
  readings: ReportReadings,
): Promise<readonly Block[]> {
  const instruments = stringsThatMoved(sources, readings)
  const strings = sources.now.site.instruments.filter(
    (one) => (profileQuestion(sources.now.site, one)?.series.length ?? 0) > 1,
  )
  const part = heading(1, 'Profiles by depth')
  if (strings.length === 0)
    return [part, paragraph('The site has no string of points down a hole: there is no profile to draw.')]
  if (instruments.length === 0)
    return [
      part,
      paragraph(
        `Of ${strings.length} strings none changed in the period by more than twice the standard uncertainty of the change, or none has a value at both ends of it; none is drawn.`,
      ),
    ]
  const blocks: Block[] = [
    part,
    paragraph(
      `${instruments.length} of ${strings.length} strings changed somewhere by more than twice the standard uncertainty of the change. Full line: end of the period; the other: its beginning.`,
    ),
  ]
  for (const instrument of instruments.slice(0, mostProfiles)) {
    sources.onProgress?.(`Profile of ${instrument.id} …`, 0.5)
    const shown = await profileShown(sources, readings, instrument, {
      axis: 'a',
      atEpochMs: [sources.manifest.untilEpochMs, sources.manifest.fromEpochMs],
    })
    if (shown)
      blocks.push(
        heading(2, `${instrument.id}, ${kindNames[instrument.kind].toLowerCase()}`),
        shown.figure,
        list(shown.remarks),
        shown.table,
      )
  }
  const left = instruments.slice(mostProfiles)
  if (left.length > 0)
    blocks.push(paragraph(`Not drawn, for want of room: ${left.map(({ id }) => id).join(', ')}.`))
  return blocks
}

/** One profile, as the page draws it, with its numbers; null where the instrument has none. */
export async function profileShown(
  sources: Pick<ReportSources, 'now' | 'ask'>,
  readings: Pick<ReportReadings, 'atEnd'>,
  instrument: PlacedInstrument,
  wanted: { readonly axis: ProfileAxis; readonly atEpochMs: readonly number[] },
): Promise<ProfileShown | null> {
  const { site } = sources.now
  const words = wordsOf(sources)
  const question = profileQuestion(site, instrument, wanted.axis) ?? profileQuestion(site, instrument)
  if (!question) return null
  const moments = wanted.atEpochMs.map((atEpochMs) => ({ heading: words.at(atEpochMs), atEpochMs }))
  const columns = await sources.ask(
    'now',
    depthProfile({ atEpochMs: wanted.atEpochMs, ...askedSeries(question) }),
  )
  const props = profileFromSite({
    document: site,
    instrument,
    question,
    moments,
    columns,
    states: readings.atEnd,
    selectedPoint: null,
    remarks: [],
  })
  const id = `profile-${instrument.id}`
  const { caption, headings, rows } = profileTable(props)
  return {
    figure: {
      block: 'figure',
      caption: `${instrument.id}: ${props.valueName.toLowerCase()} by depth`,
      alternative: alternativeOf(props),
      scope: 'depth-profile',
      scene: (room) => depthProfileScene(props, room),
      aspect: 1.15,
      tableId: id,
    },
    table: {
      block: 'table',
      id,
      caption,
      columns: headings
        .map(inOurWords(props, words.at))
        .map((head, place) =>
          place === 0
            ? { head, rowHeader: true }
            : { head, align: /^(Point|Age)$/.test(head) ? 'text' : 'decimal' },
        ),
      rows,
    },
    remarks: profileRemarks(props),
  }
}

/** Headings of the page's table: dates as the rest of the report writes them, the datum in the caption alone. */
const inOurWords =
  ({ curves, timeZone, datum }: DepthProfileProps, at: (epochMs: number) => string) =>
  (head: string): string =>
    curves
      .reduce((text, { atEpochMs }) => text.replace(formatInstant(atEpochMs, timeZone), at(atEpochMs)), head)
      .replace(` ${datum}`, '')

function alternativeOf({ curves, points, unit, decimals, valueName }: DepthProfileProps): string {
  const told = curves.map((curve) => {
    const known = curve.readings.filter((one) => one.value !== null)
    const largest = known.toSorted((one, other) => Math.abs(other.value ?? 0) - Math.abs(one.value ?? 0))[0]
    if (!largest) return `${curve.heading}: no value.`
    const depth = points.find(({ point }) => point === largest.point)?.depthMetres
    return `${curve.heading}: ${known.length} of ${points.length} points have a value, the largest ${withUnit(formatValue(largest.value, decimals), unit)} at ${largest.point}${depth === undefined ? '' : `, ${formatValue(depth, 2)} m deep`}.`
  })
  return `${valueName} against depth. ${told.join(' ')}`
}
