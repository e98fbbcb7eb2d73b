import { silentWatched, silentWatchedWords } from '#domain/alerts/silent-watched.ts'
import { groupBy } from '#domain/group-by.ts'
import { levelsInForce } from '#domain/levels/levels-in-force.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import { completenessRows } from '../../derived/report/completeness-rows.ts'
import type { ExplainedRevision } from '../../derived/report/find-revisions.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { isSilent, standingName, standingOf } from '../../ui/state-scale.ts'
import type { Block, Words } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { alertsOfPeriod } from './exceedances-part.ts'
import { countWords, namesOfSeries, shareWords, thousands, wordsOf } from './report-words.ts'

/**
 * What whoever reads the first page alone must have read, counted from the frozen data: it follows the engineer's own
 * statement and is marked as no part of it.
 */
export function inFigures(
  sources: ReportSources,
  readings: ReportReadings,
  revisions: readonly ExplainedRevision[] | null,
): Block {
  return {
    block: 'caution',
    heading: 'In figures, counted from the frozen data: no part of the statement',
    words: [
      levelsWords(sources, readings),
      alertsWords(sources),
      currentWords(sources, readings),
      cameWords(sources, readings),
      ...revisedWords(sources, revisions),
    ],
  }
}

/** Which levels were reached at the end of the period, the highest first, each channel by its name. */
function levelsWords(sources: ReportSources, { atEnd }: ReportReadings): Words {
  const { manifest, now } = sources
  const ends = seriesEnds(now.site)
  const levels = valueLevels(now.site.triggerLevels, now.site.stages)
  const watched = new Set(levelsInForce(levels, manifest.untilEpochMs).map(({ series }) => series))
  const channels = now.site.series.flatMap((series) => {
    const state = atEnd.get(series.series)
    const over = (ends.get(series.series) ?? Number.POSITIVE_INFINITY) <= manifest.untilEpochMs
    return !over && watched.has(series.id) ? [{ series, state }] : []
  })
  const end = `At the end of the period, ${wordsOf(sources).at(manifest.untilEpochMs)}:`
  if (channels.length === 0) return `${end} no channel had a level on its value, so none could be reached.`
  const reached = channels.filter(({ state }) => (state?.level ?? 0) > 0)
  const silent = channels.filter(({ state }) => isSilent(state)).length
  const of = `of ${countWords(channels.length, 'channel')} with a level on their value`
  const unknown =
    silent > 0
      ? ` Of these ${channels.length} channels ${silent} had no current data: whether a level was reached on them is not known.`
      : ''
  if (reached.length === 0)
    return `${end} no level was reached on ${channels.length - silent} ${of}.${unknown} That does not mean that nothing moved.`
  const byLevel = [...groupBy(reached, ({ state }) => state?.level ?? 0)]
    .sort(([one], [other]) => other - one)
    .map(
      ([, ones]) =>
        `${standingName(standingOf(ones[0]?.state), now.site.facts.levelNames)}: ${ones.map(({ series }) => namesOfSeries([series])).join(', ')}`,
    )
  return [
    `${end} a level was reached on ${reached.length} ${of}. `,
    { strong: `${byLevel.join('. ')}.` },
    unknown,
  ]
}

function alertsWords(sources: ReportSources): string {
  const levels = alertsOfPeriod(sources).filter(({ cause }) => cause.kind === 'level')
  const open = levels.filter(({ state }) => state !== 'closed').length
  const cutOff = wordsOf(sources).at(sources.manifest.cutOffEpochMs)
  return levels.length === 0
    ? 'Alerts: none is on record that was raised or open in the period.'
    : `Alerts: ${levels.length} raised or open in the period; ${open} not closed at the cut-off, ${cutOff}.`
}

function currentWords(sources: ReportSources, { atEnd }: ReportReadings): string {
  const { manifest, now } = sources
  const ends = seriesEnds(now.site)
  const inUse = now.site.series.filter(
    ({ series }) => (ends.get(series) ?? Number.POSITIVE_INFINITY) > manifest.untilEpochMs,
  )
  const silent = inUse.filter(({ series }) => isSilent(atEnd.get(series)))
  const critical = silent.filter((series) => series.critical).length
  return `Without current data: ${silent.length} of ${countWords(inUse.length, 'channel')} at the end of the period, ${critical} of them critical; at the cut-off ${silentWatchedWords(silentWatched(now.alerts))}. No alert does not mean no movement.`
}

function cameWords({ manifest, now }: ReportSources, readings: ReportReadings): string {
  const rows = completenessRows(now, manifest, readings)
  const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((total, row) => total + of(row), 0)
  const due = sum(({ counted }) => counted.due)
  if (due === 0) return 'Readings: none was due in the period.'
  const [inTime, late] = [sum(({ counted }) => counted.inTime), sum(({ counted }) => counted.late)]
  const gaps = rows.filter(({ counted }) => counted.due > 0 && (counted.share ?? 1) < 0.9).length
  return `Readings: of ${thousands(due)} due, ${shareWords(inTime, due)} came in time, ${thousands(late)} late, ${thousands(due - inTime - late)} not at all; ${countWords(gaps, 'channel')} lacked more than a tenth.`
}

function revisedWords(
  { manifest }: ReportSources,
  revisions: readonly ExplainedRevision[] | null,
): readonly string[] {
  if (revisions === null) return []
  const series = new Set(revisions.map((one) => one.series)).size
  return [
    revisions.length === 0
      ? `Revised: no value told in issue ${manifest.previousNumber} is told otherwise now.`
      : `Revised since issue ${manifest.previousNumber}: ${countWords(revisions.length, 'reading')} of ${series} series.`,
  ]
}
