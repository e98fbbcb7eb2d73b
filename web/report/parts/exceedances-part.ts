import type { ListedAlert } from '#contract/alerts.ts'
import { closedListedDays } from '#domain/alerts/closed-listed.ts'
import { silentWatched, silentWatchedWords } from '#domain/alerts/silent-watched.ts'
import { watchedQuantity } from '#domain/levels/level-words.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { type Block, heading, paragraph, type Table } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { countWords, seriesName, wordsOf } from './report-words.ts'

const findingWords = {
  movement: 'real, and it mattered',
  nuisance: 'nuisance',
  false: 'false: the measuring was at fault',
} as const

/** Alerts of the period and how people responded, and what cannot raise any because it is silent. */
export function exceedancesPart(sources: ReportSources): readonly Block[] {
  const { now } = sources
  const words = wordsOf(sources)
  const { alerts } = now
  const told = alertsOfPeriod(sources)
  const levels = told.filter(({ cause }) => cause.kind === 'level')
  const drills = told.filter(({ cause }) => cause.kind === 'drill')
  const open = levels.filter(({ state }) => state !== 'closed').length
  return [
    heading(1, 'Exceedances and responses'),
    paragraph(
      levels.length === 0
        ? 'No alert was raised or open in the period. That does not mean that nothing moved: see the channels without current data below.'
        : `${countWords(levels.length, 'alert')} ${levels.length === 1 ? 'was' : 'were'} raised or open in the period; ${open} of them ${open === 1 ? 'was' : 'were'} not closed when the data were frozen.`,
    ),
    ...unlistedBlocks(sources),
    ...(levels.length > 0 ? [alertTable(sources, levels), ...responses(sources, levels)] : []),
    ...(drills.length > 0
      ? [
          heading(2, 'Drills'),
          paragraph(
            drills
              .map(
                ({ alert, raisedAtEpochMs, acknowledged }) =>
                  `Alert ${alert} was an exercise, ${words.at(raisedAtEpochMs)}: ${acknowledged ? `taken up ${words.at(acknowledged.atEpochMs)}` : 'not taken up'}.`,
              )
              .join(' '),
          ),
        ]
      : []),
    ...(alerts.evaluation.behind || alerts.evaluation.failure !== null
      ? [
          {
            block: 'caution' as const,
            heading: 'Levels were not evaluated up to date',
            words: [
              alerts.evaluation.failure ??
                'Readings had arrived that were not held against the levels yet when the data were frozen.',
            ],
          },
        ]
      : []),
    ...silentBlocks(sources),
  ]
}

/** Alerts and drills of the period that the frozen data have, by when they were raised. */
export const alertsOfPeriod = ({ manifest, now }: ReportSources): readonly ListedAlert[] =>
  now.alerts.alerts
    .filter((alert) => isOfPeriod(alert, manifest.fromEpochMs, manifest.untilEpochMs))
    .toSorted((one, other) => one.raisedAtEpochMs - other.raisedAtEpochMs || one.alert - other.alert)

/** A closed alert is frozen for so long only: of an earlier period some may be missing, and that is told. */
function unlistedBlocks(sources: ReportSources): readonly Block[] {
  const listedFromEpochMs = sources.now.alerts.asOfEpochMs - closedListedDays * 86_400_000
  return sources.manifest.fromEpochMs >= listedFromEpochMs
    ? []
    : [
        {
          block: 'caution',
          heading: 'Alerts may be missing here',
          words: [
            `The frozen data hold no alert that was closed before ${wordsOf(sources).at(listedFromEpochMs)} and is over: of the period until then alerts may have been raised and closed that are not told.`,
          ],
        },
      ]
}

/** Raised before the period's end, and not over before it began. */
function isOfPeriod(alert: ListedAlert, fromEpochMs: number, untilEpochMs: number): boolean {
  if (alert.raisedAtEpochMs >= untilEpochMs) return false
  const overEpochMs = Math.max(
    alert.closed?.atEpochMs ?? Number.POSITIVE_INFINITY,
    alert.episode === null ? 0 : (alert.episode.leftAtEpochMs ?? Number.POSITIVE_INFINITY),
  )
  return overEpochMs >= fromEpochMs
}

function alertTable(sources: ReportSources, alerts: readonly ListedAlert[]): Table {
  const words = wordsOf(sources)
  const { site } = sources.now
  const unitOf = new Map(site.series.map(({ id, unit }) => [id, unit]))
  const untold = new Set(alerts.map(({ untoldBecause }) => untoldBecause))
  const [whyUntold] = untold.size === 1 ? [...untold] : []
  return {
    block: 'table',
    id: 'exceedances',
    caption: 'Alerts of the period, by when they were raised',
    columns: [
      { head: 'Alert', rowHeader: true, align: 'centre' },
      { head: 'What was reached' },
      { head: 'From reaching it to leaving it' },
      { head: 'Raised and told' },
      { head: 'Taken up, looked into, closed' },
    ],
    rows: alerts.map((alert) => {
      const { cause, episode, acknowledged, verified, closed } = alert
      if (cause.kind !== 'level') return []
      const { level } = cause
      const unit = unitOf.get(level.series) ?? ''
      const name = site.facts.levelNames[level.level - 1] ?? `Level ${level.level}`
      return [
        String(alert.alert),
        [
          { strong: level.series },
          `, ${name}: ${watchedBy(level) === 'silence' ? 'no reading for ' : ''}${watchedQuantity(level, level.value, unit)}${alert.bornOut ? '' : '; later readings speak against it'}`,
        ],
        episode === null
          ? '–'
          : `${words.short(episode.crossedAtEpochMs)}; ${watchedBy(level) === 'silence' ? 'longest' : 'furthest'} ${watchedQuantity(level, shortValue(episode.peakValue), unit)}, ${words.short(episode.peakAtEpochMs)}; ${episode.leftAtEpochMs === null ? 'still reached' : `left ${words.short(episode.leftAtEpochMs)}`}`,
        `${words.short(alert.raisedAtEpochMs)}; ${whyUntold ? 'told nobody' : toldWords(sources, alert)}`,
        [
          acknowledged ? `taken up ${words.short(acknowledged.atEpochMs)}` : 'not taken up',
          verified
            ? `looked into ${words.short(verified.atEpochMs)}: ${findingWords[verified.finding]}`
            : 'not looked into',
          closed ? `closed ${words.short(closed.atEpochMs)}` : 'not closed',
        ].join('; '),
      ]
    }),
    notes: [
      'As the data were frozen: steps that people took later are not in it. Instants without a year are of that of the cut-off.',
      ...(whyUntold ? [`Nobody was told of any of them: ${whyUntold}`] : []),
    ],
  }
}

/** Four digits that count: the rest of a mean or rate is noise. */
const shortValue = (value: number): number => Number(value.toPrecision(4))

function toldWords(sources: ReportSources, alert: ListedAlert): string {
  const words = wordsOf(sources)
  const { attempts, untoldBecause, heldBack, state } = alert
  if (untoldBecause !== null) return `told nobody: ${untoldBecause}`
  if (heldBack) return `held back until ${words.short(heldBack.untilEpochMs)}`
  if (attempts === null)
    return state === 'raised'
      ? 'nobody reached yet'
      : state === 'delivered'
        ? 'told'
        : 'who was told is not shown here'
  const first = attempts.find(({ outcome }) => outcome === 'delivered')
  if (first) return `told ${words.short(first.atEpochMs)}`
  return attempts.length === 0
    ? 'told nobody'
    : `nobody was reached (${countWords(attempts.length, 'attempt')})`
}

/** What people wrote at each step, where anything is shown. */
function responses(sources: ReportSources, alerts: readonly ListedAlert[]): readonly Block[] {
  const words = wordsOf(sources)
  const entries = alerts.flatMap((alert) => {
    const steps = [
      ['taken up', alert.acknowledged],
      ['looked into', alert.verified],
      ['closed', alert.closed],
    ] as const
    const said = steps.flatMap(([what, step]) =>
      step && (step.note !== '' || step.by !== '')
        ? [
            `${what} ${words.at(step.atEpochMs)}${step.by === '' ? '' : ` by ${step.by}`}${step.note === '' ? '' : `: ${step.note}`}`,
          ]
        : [],
    )
    return said.length === 0 ? [] : [[{ strong: `Alert ${alert.alert}: ` }, said.join('; ')] as const]
  })
  return entries.length === 0 ? [] : [heading(2, 'What was said'), { block: 'list', ordered: false, entries }]
}

function silentBlocks(sources: ReportSources): readonly Block[] {
  const words = wordsOf(sources)
  const { manifest, now } = sources
  const { site, alerts } = now
  const seriesOf = new Map(site.series.map((one) => [one.series, one]))
  const critical = alerts.unknown.filter((one) => one.critical)
  const counted = silentWatched(alerts)
  const part = heading(2, 'Watched channels without current data')
  if (counted.watched === 0)
    return [
      part,
      paragraph(
        'No series has a trigger level in force: nothing is watched here, and no alert can come of any movement.',
      ),
    ]
  const intro = paragraph(
    `At the cut-off, ${words.at(manifest.cutOffEpochMs)}, ${silentWatchedWords(counted)}; ${critical.length} of those that are read ${critical.length === 1 ? 'is' : 'are'} critical. No alert can come of them: no alert does not mean no movement.`,
  )
  if (alerts.unknown.length === 0) return [part, intro]
  return [
    part,
    intro,
    {
      block: 'table',
      id: 'silent',
      caption: 'Watched series without current data, critical ones first',
      columns: [{ head: 'Series', rowHeader: true }, { head: 'Critical' }, { head: 'Last reading' }],
      rows: [...critical, ...alerts.unknown.filter((one) => !one.critical)].flatMap((one) => {
        const series = seriesOf.get(one.series)
        return series
          ? [
              [
                seriesName(series),
                one.critical ? 'critical' : 'no',
                one.lastEpochMs === null ? 'never read' : words.at(one.lastEpochMs),
              ],
            ]
          : []
      }),
    },
  ]
}
