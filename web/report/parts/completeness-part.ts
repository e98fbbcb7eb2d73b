import { silentWatched, silentWatchedWords } from '#domain/alerts/silent-watched.ts'
import { groupBy } from '#domain/group-by.ts'
import { type CompletenessRow, completenessRows } from '../../derived/report/completeness-rows.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { type Block, heading, paragraph, type TableRow } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import {
  countWords,
  lengthWords,
  namesOfSeries,
  seriesName,
  shareWords,
  thousands,
  wordsOf,
} from './report-words.ts'

/** What was due of every channel, what came in time, late and not at all, and how much of it nobody stands for yet. */
export function completenessPart(sources: ReportSources, readings: ReportReadings): readonly Block[] {
  const { manifest, now } = sources
  const words = wordsOf(sources)
  const rows = completenessRows(now, manifest, readings)
  const sum = (of: (row: CompletenessRow) => number) => rows.reduce((total, row) => total + of(row), 0)
  const due = sum(({ counted }) => counted.due)
  const inTime = sum(({ counted }) => counted.inTime)
  const late = sum(({ counted }) => counted.late)
  const silent = rows.filter(({ counted }) => counted.due > 0 && counted.inTime + counted.late === 0)
  const { all, provisional } = readings.provisional
  const part = [
    heading(1, 'Completeness and provisional share'),
    paragraph(
      provisional === all
        ? `All ${thousands(all)} readings of the period are provisional: nobody has approved any of them yet.`
        : `${thousands(provisional)} of ${thousands(all)} readings of the period (${shareWords(provisional, all)}) are provisional: nobody stands for them yet, and they may still be revised.`,
    ),
  ]
  if (rows.length === 0)
    return [
      ...part,
      paragraph('No channel was wired in the period, so nothing was due and nothing is concluded.'),
    ]
  const watched = silentWatched(now.alerts)
  const gaps = rows.filter(({ counted }) => counted.due > 0 && (counted.share ?? 1) < 0.9)
  return [
    ...part,
    paragraph(
      `Of ${thousands(due)} readings due on ${countWords(rows.length, 'channel')}, ${thousands(inTime)} (${shareWords(inTime, due)}) came in time, ${thousands(late)} late and ${thousands(due - inTime - late)} not at all.${watched.watched === 0 ? '' : ` At the cut-off ${silentWatchedWords(watched)}: no alert could come of ${watched.silent === 1 ? 'it' : 'them'}.`}`,
    ),
    ...(gaps.length > 0
      ? [
          {
            block: 'caution' as const,
            heading: `${countWords(gaps.length, 'channel')} with less than 90 % of what was due`,
            words: [
              `Where nothing was read, nothing can be concluded: neither that the ground stood still nor that a level was not reached between two readings.${silent.length > 0 ? ` Without any reading in the period: ${silent.map(({ series }) => seriesName(series)).join(', ')}.` : ''}`,
            ],
          },
        ]
      : []),
    {
      block: 'table',
      id: 'completeness',
      caption: `Channels from ${words.at(manifest.fromEpochMs)} to ${words.at(manifest.untilEpochMs)}, site time`,
      columns: [
        { head: 'Channel', rowHeader: true },
        { head: 'Series' },
        { head: 'Due', align: 'decimal' },
        { head: 'In time', align: 'decimal' },
        { head: 'Late', align: 'decimal' },
        { head: 'Missing', align: 'decimal' },
        { head: 'Came', unit: '%', align: 'decimal' },
        { head: 'No value', align: 'decimal' },
        { head: 'Longest gap' },
        { head: 'Begins' },
      ],
      rows: [...groupBy(rows, ({ logger }) => logger)].flatMap(([logger, ofLogger]): TableRow[] => [
        { over: logger },
        ...loggerRows(ofLogger, words.short),
      ]),
      notes: [
        'Instants without a year are of that of the cut-off. Channels of a logger that are alike in every column stand in one row; its counts are those of each of them.',
        'Late: received later after it was taken than the series allows. Readings are due at every whole interval of UTC; of rounds on foot, as many as whole intervals fit in.',
        'No value: read, but nothing could be made of it. The longest gap is without a value; the ends of the period count.',
      ],
    },
  ]
}

/** Cells of a row that are not its names: alike, they stand once. */
function countsOf(row: CompletenessRow, at: (epochMs: number) => string) {
  const { counted, sinceEpochMs, endedEpochMs, neverRead, series } = row
  const remarks = [
    row.critical ? 'critical' : '',
    sinceEpochMs === null ? '' : `from ${at(sinceEpochMs)}`,
    endedEpochMs === null ? '' : `ended ${at(endedEpochMs)}`,
    neverRead ? 'never read' : '',
  ].filter((one) => one !== '')
  const gap = counted.longestGap
  const byFoot = series.intervalMinutes > 1440
  return {
    remarks: remarks.length > 0 ? ` (${remarks.join(', ')})` : '',
    cells: [
      thousands(counted.due),
      thousands(counted.inTime),
      thousands(counted.late),
      thousands(counted.missing),
      counted.share === null ? '–' : (Math.floor(counted.share * 1000) / 10).toFixed(1),
      thousands(counted.withoutValue),
      gap === null
        ? '–'
        : byFoot
          ? `${Math.floor((gap.untilEpochMs - gap.fromEpochMs) / 86_400_000)} d`
          : lengthWords(gap.untilEpochMs - gap.fromEpochMs),
      gap === null || byFoot ? '–' : at(gap.fromEpochMs),
    ],
  }
}

function loggerRows(rows: readonly CompletenessRow[], at: (epochMs: number) => string): readonly TableRow[] {
  const told = rows.map((row) => ({ row, ...countsOf(row, at) }))
  return [...groupBy(told, ({ remarks, cells }) => JSON.stringify([remarks, cells])).values()].map(
    (alike) => {
      const channels = alike.map(({ row }) => row.channel)
      return [
        channels.length <= 2
          ? channels.join(', ')
          : `${channels[0]} … ${channels.at(-1)}, ${channels.length} channels`,
        `${namesOfSeries(alike.map(({ row }) => row.series))}${alike[0]?.remarks ?? ''}`,
        ...(alike[0]?.cells ?? []),
      ]
    },
  )
}
