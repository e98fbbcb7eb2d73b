import type { Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import { notesOfLast } from '../../derived/notes-of-value.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { type FoundOf, foundOfValues } from '../../derived/verdict-on-value.ts'
import { formatShare, formatValue, readableDecimals } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { isSilent, standingName, standingOf } from '../../ui/state-scale.ts'
import { type Block, heading, paragraph, type TableRow } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { countWords, lengthWords, shareWords, signedValue, wordsOf } from './report-words.ts'

/** Values of what colours the plan, at the end of the period, and how they changed in it. */
export function valuesPart(sources: ReportSources, readings: ReportReadings): readonly Block[] {
  const { manifest, now } = sources
  const words = wordsOf(sources)
  const { site } = now
  const primary = new Set(site.points.flatMap(({ primarySeries }) => primarySeries ?? []))
  const ends = seriesEnds(site)
  const endedBefore = (series: number) =>
    (ends.get(series) ?? Number.POSITIVE_INFINITY) <= manifest.fromEpochMs
  const told = site.series.filter(
    ({ series, measure }) => primary.has(series) && measure !== 'battery-voltage',
  )
  const shown = told.filter(({ series }) => !endedBefore(series))
  const shownRetired = told.length - shown.length
  const found = foundOfValues(site)
  const late = shown.filter(
    ({ series }) => !isOver(ends.get(series), manifest) && isSilent(readings.atEnd.get(series)),
  ).length
  if (shown.length === 0)
    return [
      heading(1, 'Values'),
      paragraph('The site has no measuring point in use: there is no value to tell.'),
    ]
  return [
    heading(1, 'Values at the end of the period'),
    paragraph(
      `The last value of each of ${countWords(shown.length, 'measuring point')} at or before ${words.at(manifest.untilEpochMs)}, and the change since ${words.at(manifest.fromEpochMs)} with its standard uncertainty. ${late === 0 ? 'All are current.' : `${late} ${late === 1 ? 'has' : 'have'} no current data: what is told of ${late === 1 ? 'it is' : 'them is'} old, and says nothing of the end of the period.`}${retiredWords(shownRetired)}`,
    ),
    {
      block: 'table',
      id: 'values',
      caption:
        'Values by what is measured. u: standard uncertainty of the change; a change below 2 u is not told from none',
      columns: [
        { head: 'Point', rowHeader: true },
        { head: 'Value', align: 'decimal' },
        { head: 'Age' },
        { head: 'Change', align: 'decimal' },
        { head: 'u', align: 'decimal' },
        { head: 'Of first level', align: 'decimal' },
        { head: 'Stands at' },
        { head: 'Provisional' },
      ],
      rows: [...groupBy(shown, ({ measure, unit }) => `${measureNames[measure]}, ${unit}`)].flatMap(
        ([name, ofMeasure]): TableRow[] => [
          { over: name },
          ...ofMeasure.map((series) => rowOf(series, ends.get(series.series), sources, readings, found)),
        ],
      ),
    },
  ]
}

const retiredWords = (count: number): string =>
  count === 0
    ? ''
    : ` ${countWords(count, 'measuring point')} ${count === 1 ? 'was' : 'were'} out of use before the period and ${count === 1 ? 'is' : 'are'} not told: nothing is measured there.`

function rowOf(
  series: Series,
  ended: number | undefined,
  sources: ReportSources,
  { atEnd, atStart, provisionalOf }: ReportReadings,
  found: FoundOf,
): readonly string[] {
  const { manifest } = sources
  const [end, start] = [atEnd.get(series.series), atStart.get(series.series)]
  const change = changeOf(series, { atEnd, atStart })
  const { all, provisional } = provisionalOf(series.series)
  // As everywhere a value is read: no digit that its uncertainty leaves without a meaning.
  const decimals = readableDecimals(series.decimals, series.standardUncertainty)
  const age = end?.atEpochMs == null ? null : manifest.untilEpochMs - end.atEpochMs
  return [
    series.point,
    formatValue(end?.value ?? null, decimals),
    age === null
      ? 'never read'
      : `${lengthWords(age)}${isOver(ended, manifest) ? '' : end?.late ? ', late' : end?.value === null ? ', no value' : ''}`,
    start?.value == null ? 'no value before' : signedValue(change?.value ?? null, decimals),
    change?.standardUncertainty == null ? '–' : String(Number(change.standardUncertainty.toPrecision(2))),
    (isOver(ended, manifest) ? '' : formatShare(end?.shareOfFirstLevel ?? null)) || '–',
    [standingText(ended, end, sources), found(series.id, end?.atEpochMs ?? null), ...notesOfLast(end)]
      .filter((one) => one !== '')
      .join('; '),
    all === 0 ? 'no reading' : shareWords(provisional, all),
  ]
}

const isOver = (ended: number | undefined, { untilEpochMs }: ReportSources['manifest']): ended is number =>
  ended !== undefined && ended <= untilEpochMs

function standingText(
  ended: number | undefined,
  end: SeriesState | undefined,
  sources: ReportSources,
): string {
  const { manifest, now } = sources
  if (isOver(ended, manifest)) return `ended ${wordsOf(sources).short(ended)}`
  const standing = standingOf(end)
  const name = standing === 'no-level' ? 'no level' : standingName(standing, now.site.facts.levelNames)
  return isSilent(end) && standing !== 'late' ? `${name}; no current data` : name
}

/** Change of a series over the period, from its last values at both ends; null where one of them is missing. */
export function changeOf(
  series: Pick<Series, 'series' | 'uncertaintyPeriods'>,
  { atEnd, atStart }: Pick<ReportReadings, 'atEnd' | 'atStart'>,
): { readonly value: number; readonly standardUncertainty: number | null } | null {
  const [end, start] = [atEnd.get(series.series), atStart.get(series.series)]
  if (end?.value == null || start?.value == null || end.atEpochMs === null || start.atEpochMs === null)
    return null
  if (end.atEpochMs === start.atEpochMs) return null
  const known = changeBetween(series.uncertaintyPeriods ?? [], start.atEpochMs, end.atEpochMs)
  return { value: end.value - start.value, standardUncertainty: known?.standardUncertainty ?? null }
}
