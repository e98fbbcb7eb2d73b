import { groupBy } from '#domain/group-by.ts'
import { sayDay } from '#domain/meeting/site-day.ts'
import { cautionsOf } from '../../derived/report/cautions.ts'
import { withUnit } from '../../ui/format-value.ts'
import { type Block, heading, list, paragraph } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { countWords, namesOfSeries, thousands, wordsOf } from './report-words.ts'

/** By which calibrations the values of the period were made. */
export function calibrationsPart(sources: ReportSources): readonly Block[] {
  const { manifest, now } = sources
  const words = wordsOf(sources)
  const part = heading(1, 'Calibrations used')
  if (!now.records)
    return [
      part,
      paragraph(
        'The frozen data do not hold the records of calibrations: which were used cannot be told here.',
      ),
    ]
  const used = now.site.series.flatMap((series) =>
    usedIn(sources, series.id).map((calibration) => ({ series, calibration })),
  )
  const alike = groupBy(used, ({ series, calibration }) =>
    JSON.stringify([
      series.measure,
      series.unit,
      calibration.validFrom,
      calibration.certificate,
      calibration.calibratedAt,
      calibration.dueAt,
      calibration.standardUncertainty,
    ]),
  )
  const rows = [...alike.values()].flatMap((ones) => {
    const [one] = ones
    if (!one) return []
    const { certificate, calibratedAt, dueAt, validFrom, standardUncertainty } = one.calibration
    const ids = ones.map(({ calibration }) => calibration.id)
    return [
      [
        namesOfSeries(ones.map(({ series }) => series)),
        ids.length <= 2 ? ids.join(', ') : `${ids[0]} … ${ids.at(-1)}`,
        words.day(validFrom),
        certificate === null
          ? 'none'
          : `${certificate}${calibratedAt === null ? '' : `, ${words.day(calibratedAt)}`}`,
        dueAt === null
          ? 'no date'
          : `${words.day(dueAt)}${dueAt <= manifest.cutOffEpochMs ? ', overdue' : ''}`,
        withUnit(String(standardUncertainty), one.series.unit),
      ],
    ]
  })
  return [
    part,
    paragraph(
      `${countWords(used.length, 'calibration')} of ${countWords(new Set(used.map(({ series }) => series.id)).size, 'series', 'series')}; those alike in everything but their name stand in one row. Uncertainties are standard uncertainties of a value.`,
    ),
    {
      block: 'table',
      id: 'calibrations',
      caption: 'Calibrations in force in the period',
      columns: [
        { head: 'Series', rowHeader: true },
        { head: 'Calibration' },
        { head: 'Holds from' },
        { head: 'Certificate' },
        { head: 'Due' },
        { head: 'Uncertainty' },
      ],
      rows,
    },
  ]
}

/** Calibrations of a sensor that held at any instant of the period. */
function usedIn({ manifest, now }: ReportSources, sensor: string) {
  const own = (now.records?.calibrations ?? [])
    .filter((one) => one.sensor === sensor && one.validFrom < manifest.untilEpochMs)
    .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
  return own.filter(
    (_, place) => (own[place + 1]?.validFrom ?? Number.POSITIVE_INFINITY) > manifest.fromEpochMs,
  )
}

/** What meetings wrote down and agreed on up to the cut-off. */
export function minutesPart(sources: ReportSources): readonly Block[] {
  const { manifest, now } = sources
  const words = wordsOf(sources)
  const part = heading(1, 'Minutes and actions')
  // Sets that were frozen by a version before have records without them.
  if (!now.records?.minutes)
    return [
      part,
      paragraph('The frozen data do not hold the minutes of meetings: what was agreed cannot be told here.'),
    ]
  // Of an invented site, whose rows are dated by its own present, some may lie after the cut-off.
  const known = now.records.minutes
    .filter(({ atEpochMs }) => atEpochMs <= manifest.cutOffEpochMs)
    .map((one) => ({
      ...one,
      entries: one.entries.filter((entry) => entry.atEpochMs <= manifest.cutOffEpochMs),
    }))
  const standing = (one: (typeof known)[number]) => one.entries.at(-1)?.standing ?? 'open'
  const ofPeriod = known.filter(
    (one) =>
      one.atEpochMs >= manifest.fromEpochMs ||
      (one.kind === 'action' &&
        (standing(one) === 'open' || (one.entries.at(-1)?.atEpochMs ?? 0) >= manifest.fromEpochMs)),
  )
  if (ofPeriod.length === 0)
    return [part, paragraph('No meeting wrote anything down in the period, and no action was open.')]
  return [
    part,
    {
      block: 'table',
      id: 'minutes',
      caption: 'What was written down in the period, and actions that were open in it',
      columns: [
        { head: 'No.', rowHeader: true, align: 'centre' },
        { head: 'Written' },
        { head: 'What' },
        { head: 'About' },
        { head: 'Owner' },
        { head: 'Due' },
        { head: 'Standing' },
      ],
      rows: ofPeriod.map((one) => {
        const last = one.entries.at(-1)
        return [
          String(one.id),
          words.day(one.atEpochMs),
          one.text,
          one.places.join(', ') || 'the site',
          one.owner ?? '–',
          one.dueOn === null ? '–' : sayDay(one.dueOn),
          one.kind === 'note'
            ? 'note'
            : last
              ? `${last.standing}, ${words.day(last.atEpochMs)}${last.note === '' ? '' : `: ${last.note}`}`
              : 'open',
        ]
      }),
    },
  ]
}

/** What not to conclude. */
export const cautionsPart = (sources: ReportSources): readonly Block[] => [
  heading(1, 'Cautions'),
  {
    block: 'caution',
    heading: 'To be read with every figure of this report',
    words: cautionsOf(sources.now.alerts),
  },
]

/** From what and by what it was made, so that it can be made again. */
export function makingPart(sources: ReportSources): readonly Block[] {
  const { manifest, now, before } = sources
  const words = wordsOf(sources)
  const { set } = now
  return [
    heading(1, 'How this report was made'),
    paragraph(
      'From its manifest and the frozen data sets that it names, by one computation that reads no clock: made again, it is the same file byte for byte.',
    ),
    list([
      `Period: ${words.at(manifest.fromEpochMs)} to ${words.at(manifest.untilEpochMs)}, site time (${now.site.facts.timeZone}).`,
      `Data received until ${words.at(manifest.cutOffEpochMs)} (${new Date(manifest.cutOffEpochMs).toISOString()}); records as they stood ${words.at(set.frozenAtEpochMs)}, revision ${set.revision}.`,
      `Frozen data set ${set.id}, by ${set.frozenBy}, program version ${set.software}; ${thousands(set.readings.all)} readings of all series, ${thousands(set.readings.provisional)} of them provisional.`,
      before
        ? `Compared with the frozen data set ${before.set.id} of issue ${manifest.previousNumber}, received until ${words.at(before.set.cutOffEpochMs)}.`
        : 'Compared with no issue before.',
      `Composed by program version ${manifest.software}.`,
      `Parts: ${manifest.parts.join(', ') || 'none beyond those that every report has'}.`,
      manifest.views.length === 0
        ? 'No views were added by hand.'
        : `Views added by hand: ${manifest.views.map(({ caption }) => caption).join('; ')}.`,
    ]),
    {
      block: 'table',
      id: 'parts',
      caption: `Files of the frozen data set ${set.id}`,
      columns: [{ head: 'Part', rowHeader: true }, { head: 'Bytes', align: 'decimal' }, { head: 'SHA-256' }],
      rows: set.parts.map(({ name, bytes, sha256 }) => [
        name,
        thousands(bytes),
        // Broken into groups, because no line takes 64 letters without a space.
        sha256.replaceAll(/(.{16})(?=.)/g, '$1 '),
      ]),
    },
    heading(2, 'Manifest'),
    list(manifestLines(sources)),
  ]
}

/** In order of their names: a manifest that was kept may come back with its fields in another order. */
const manifestLines = ({ manifest }: ReportSources): readonly string[] =>
  Object.entries({
    ...manifest,
    views: manifest.views.map(({ address, caption }) => ({ address, caption })),
  })
    .filter(([name]) => name !== 'statement')
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([name, value]) => `${name}: ${typeof value === 'object' ? JSON.stringify(value) : String(value)}`)
