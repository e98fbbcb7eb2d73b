import { groupBy } from '#domain/group-by.ts'
import { type RevisionStep, readableLines, revisionRuns } from '#domain/report/revision-runs.ts'
import type { ExplainedRevision } from '../../derived/report/find-revisions.ts'
import { recordChanges } from '../../derived/report/record-changes.ts'
import { reasonWords } from '../../derived/report/revision-reasons.ts'
import { formatValue } from '../../ui/format-value.ts'
import { type Block, heading, list, paragraph, type Table, type TableRow } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { countWords, seriesName, signedValue, thousands, wordsOf } from './report-words.ts'

/** A gap of so many planned intervals, and at least so long, parts two runs. */
const gapIntervals = 4
const leastGapMs = 6 * 3_600_000

/** What is told otherwise than in the issue before, value by value, and which records changed since. */
export function changesPart(
  sources: ReportSources,
  revisions: readonly ExplainedRevision[] | null,
): readonly Block[] {
  const { manifest, now, before } = sources
  const words = wordsOf(sources)
  const since =
    before === null
      ? `This is the first ${manifest.kind === 'on-request' ? 'report on request' : `${manifest.kind} report`} of this site: there is no issue with which its values could be compared. Below stands what the records date into the period.`
      : `Compared with issue ${manifest.previousNumber}, whose data were received until ${words.at(before.set.cutOffEpochMs)}.`
  return [
    heading(1, 'Changes since the last issue'),
    paragraph(since),
    ...(revisions === null ? [] : revisionBlocks(sources, revisions)),
    ...recordBlocks(sources),
    ...(before !== null && before.set.software !== now.set.software
      ? [
          paragraph(
            `The data of the last issue were frozen by version ${before.set.software} of the program, these by ${now.set.software}: values may differ by that as well.`,
          ),
        ]
      : []),
  ]
}

function revisionBlocks(sources: ReportSources, revisions: readonly ExplainedRevision[]): readonly Block[] {
  const { now } = sources
  const part = heading(2, 'Revised values')
  if (revisions.length === 0)
    return [
      part,
      paragraph('No value that the last issue told of is told otherwise now, in the decimals stated.'),
    ]
  const seriesCount = new Set(revisions.map(({ series }) => series)).size
  const byReason = groupBy(revisions, ({ reason }) => reason)
  const reasons = [...byReason].map(
    ([reason, ones]) => `${countWords(ones.length, 'reading')}: ${reasonWords[reason]}`,
  )
  return [
    part,
    paragraph(
      `${countWords(revisions.length, 'reading')} of ${seriesCount} series ${revisions.length === 1 ? 'is' : 'are'} told otherwise than before. A change smaller than the stated decimals counts as none.`,
    ),
    list(reasons.sort()),
    ...revisionTable(sources, revisions),
    ...(now.records === null
      ? [
          paragraph(
            'The frozen data do not hold the records of calibrations and wiring: of calibrations reasons are told by what the site says of its uncertainties, of wiring none.',
          ),
        ]
      : []),
  ]
}

const stepWords: Readonly<Record<RevisionStep, string | null>> = {
  value: null,
  day: 'Longer runs are told by days of the site: means of the revised readings of each day, then and now, and how many they are.',
  month:
    'Longer runs are told by months of the site: means of the revised readings of each month, then and now, and how many they are.',
}

function revisionTable(sources: ReportSources, revisions: readonly ExplainedRevision[]): readonly Block[] {
  const words = wordsOf(sources)
  const zone = sources.now.site.facts.timeZone
  const seriesOf = new Map(sources.now.site.series.map((one) => [one.series, one]))
  const reasonOf = new Map(revisions.map((one) => [`${one.series} ${one.atEpochMs}`, one.reason]))
  const runs = revisionRuns(
    revisions,
    ({ series, atEpochMs }) => reasonOf.get(`${series} ${atEpochMs}`) ?? 'untold',
    (series) => Math.max(leastGapMs, gapIntervals * 60_000 * (seriesOf.get(series)?.intervalMinutes ?? 60)),
  )
  const { step, lines } = readableLines(runs, zone)
  const rows = runs.flatMap((run, place): TableRow[] => {
    const series = seriesOf.get(run.series)
    if (!series) return []
    const first = run.values[0]?.atEpochMs ?? 0
    const last = run.values.at(-1)?.atEpochMs ?? first
    const stretch = first === last ? words.at(first) : `${words.at(first)} to ${words.at(last)}`
    return [
      {
        over: `${seriesName(series)}, ${series.unit}: ${stretch}, ${countWords(run.values.length, 'reading')}; ${reasonWords[run.reason]}`,
      },
      ...(lines[place] ?? []).map((line) => [
        line.readings === 1
          ? words.at(line.atEpochMs)
          : `${step === 'month' ? 'month of ' : ''}${words.day(line.atEpochMs)}`,
        formatValue(line.before, series.decimals),
        formatValue(line.after, series.decimals),
        line.before === null || line.after === null
          ? '–'
          : signedValue(line.after - line.before, series.decimals),
        thousands(line.readings),
      ]),
    ]
  })
  const told = stepWords[step]
  const table: Table = {
    block: 'table',
    id: 'revisions',
    caption: 'Values told otherwise than in the last issue. A dash: no value',
    columns: [
      { head: 'Instant or day', rowHeader: true },
      { head: 'Then', align: 'decimal' },
      { head: 'Now', align: 'decimal' },
      { head: 'Difference', align: 'decimal' },
      { head: 'Readings', align: 'decimal' },
    ],
    rows,
  }
  return [table, ...(told === null ? [] : [paragraph(told)])]
}

function recordBlocks({ manifest, now, before }: ReportSources): readonly Block[] {
  const changes = recordChanges(before, now, manifest)
  const kinds = [
    ['Measuring points', changes.points],
    ['Trigger levels', changes.levels],
    ['Calibrations', changes.calibrations],
    ['Wiring', changes.wiring],
    ['Verdicts', changes.verdicts],
    ['Approvals', changes.approvals],
  ] as const
  const none = kinds.filter(([, entries]) => entries.length === 0).map(([name]) => name.toLowerCase())
  const untold = now.records === null ? ['calibrations', 'wiring'] : []
  const unchanged = none.filter((name) => !untold.includes(name))
  return [
    heading(2, 'Changed records'),
    ...kinds.flatMap(([name, entries]) => (entries.length === 0 ? [] : [heading(3, name), list(entries)])),
    ...(unchanged.length > 0 ? [paragraph(`No change: ${unchanged.join(', ')}.`)] : []),
    ...(untold.length > 0
      ? [paragraph('Whether calibrations or wiring changed cannot be told from these frozen data.')]
      : []),
  ]
}
