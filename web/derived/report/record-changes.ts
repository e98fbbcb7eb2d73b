import type { SiteDocument } from '#contract/site-document.ts'
import { clockWords } from '#domain/corrections/clock-words.ts'
import { groupBy } from '#domain/group-by.ts'
import { levelWords } from '#domain/levels/level-words.ts'
import { dayText, instantText, siteDay } from '#domain/report/site-days.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { FrozenDocuments } from '../../report/report-sources.ts'

/** Changes of records, apart by what they are of; sentences in order of the records. */
export interface RecordChanges {
  readonly points: readonly string[]
  readonly levels: readonly string[]
  readonly calibrations: readonly string[]
  readonly wiring: readonly string[]
  readonly verdicts: readonly string[]
  readonly approvals: readonly string[]
}

type Side = Pick<FrozenDocuments, 'site' | 'records'>

/**
 * What the records say now and did not when the issue before was made. For a first issue, `before` null: what they
 * date into the period.
 */
export function recordChanges(
  before: Side | null,
  now: Side,
  period: { readonly fromEpochMs: number; readonly untilEpochMs: number },
): RecordChanges {
  const { site } = now
  const zone = site.facts.timeZone
  const at = (epochMs: number) => instantText(epochMs, zone)
  const dated = (epochMs: number) => epochMs >= period.fromEpochMs && epochMs < period.untilEpochMs
  const isNew = <Row>(
    rows: (side: Side) => readonly Row[],
    keyOf: (row: Row) => string,
    datedAt: (row: Row) => number,
  ) => {
    const known = before && new Set(rows(before).map(keyOf))
    return rows(now).filter((row) => (known ? !known.has(keyOf(row)) : dated(datedAt(row))))
  }
  return {
    points: pointChanges(before?.site ?? null, site, dated, at),
    levels: levelChanges(before?.site ?? null, site, dated, at),
    calibrations: [
      ...isNew(
        ({ records }) => records?.calibrations ?? [],
        ({ id, standardUncertainty }) => `${id} ${standardUncertainty}`,
        ({ validFrom }) => validFrom,
      ).map(
        ({ id, sensor, validFrom, certificate, author, reason }) =>
          `${sensor}: ${id} holds from ${at(validFrom)}${certificate === null ? '' : `, certificate ${certificate}`}. ${author}: ${reason}`,
      ),
      ...isNew(
        ({ records }) => records?.sensorBarometers ?? [],
        ({ sensor, version }) => `${sensor} ${version}`,
        ({ validFrom }) => validFrom,
      ).map(
        ({ sensor, barometer, validFrom, author, reason }) =>
          `${sensor}: corrected by the barometer ${barometer} from ${at(validFrom)}. ${author}: ${reason}`,
      ),
      ...isNew(
        ({ records }) => records?.loggerClocks ?? [],
        ({ logger, version }) => `${logger} ${version}`,
        ({ validFrom }) => validFrom,
      ).map(
        ({ logger, addedSeconds, addedSecondsPerDay, validFrom, author, reason }) =>
          `${logger}: ${clockWords({ addedSeconds, addedSecondsPerDay })} from the stamp ${at(validFrom)} on. ${author}: ${reason}`,
      ),
    ],
    wiring: together(
      isNew(
        ({ records }) => records?.wiring ?? [],
        ({ logger, channel, fromAt, untilAt }) => `${logger} ${channel} ${fromAt} ${untilAt}`,
        ({ fromAt, untilAt }) => (untilAt !== null && dated(untilAt) ? untilAt : fromAt),
      ),
      ({ logger, fromAt, untilAt, reason }) =>
        `from ${at(fromAt)}${untilAt === null ? '' : ` until ${at(untilAt)}`} read by ${logger}${reason ? `. ${reason}` : ''}`,
      ({ sensor, channel }) => `${sensor} (${channel})`,
    ),
    verdicts: [
      ...isNew(
        ({ site: of }) => of.verdicts,
        ({ id }) => id,
        (one) => one.at,
      ).map(
        ({ id, series, verdict, fromAt, untilAt, reason, author, at: found }) =>
          `${id}, ${series}: ${verdict}, from ${at(fromAt)}${untilAt === null ? ' on' : ` until ${at(untilAt)}`}. ${author}, ${at(found)}: ${reason}`,
      ),
      ...isNew(
        ({ site: of }) => of.verdictWithdrawals,
        ({ verdict }) => verdict,
        (one) => one.at,
      ).map(
        ({ verdict, author, reason, at: taken }) =>
          `${verdict} was taken back by ${author}, ${at(taken)}: ${reason}`,
      ),
    ],
    approvals: approvalChanges(before?.site ?? null, site, dated, zone),
  }
}

function pointChanges(
  before: SiteDocument | null,
  { points, instruments }: SiteDocument,
  dated: (epochMs: number) => boolean,
  at: (epochMs: number) => string,
): readonly string[] {
  const known = before && new Map(before.points.map((one) => [one.id, one]))
  const added = known ? points.filter(({ id }) => !known.has(id)) : []
  const retired = points.filter(({ id, retiredAtEpochMs }) => {
    if (retiredAtEpochMs === null) return false
    return known
      ? known.has(id) && known.get(id)?.retiredAtEpochMs !== retiredAtEpochMs
      : dated(retiredAtEpochMs)
  })
  const gone = before ? before.points.filter(({ id }) => !points.some((one) => one.id === id)) : []
  const noteOf = (instrument: string) => instruments.find(({ id }) => id === instrument)?.note
  return [
    ...added.map(({ id, replaces }) =>
      replaces === null ? `${id} was added.` : `${id} was added in place of ${replaces}.`,
    ),
    ...together(
      retired,
      ({ id, instrument, retiredAtEpochMs }) => {
        const follower = points.find(({ replaces }) => replaces === id)
        const note = noteOf(instrument)
        return `out of use since ${at(retiredAtEpochMs ?? 0)}${follower ? `; ${follower.id} follows on from it` : ''}${note ? `. ${note}` : ''}`
      },
      ({ id }) => id,
    ),
    ...gone.map(({ id }) => `${id} is no longer among the records.`),
  ]
}

function levelChanges(
  before: SiteDocument | null,
  site: SiteDocument,
  dated: (epochMs: number) => boolean,
  at: (epochMs: number) => string,
): readonly string[] {
  const unitOf = new Map(site.series.map(({ id, unit }) => [id, unit]))
  const name = (level: TriggerLevel) => site.facts.levelNames[level.level - 1] ?? `Level ${level.level}`
  const says = (level: TriggerLevel) =>
    `${level.id} (${name(level)}): ${levelWords(level, unitOf.get(level.series) ?? '', at).reached}`
  const known = before && new Map(before.triggerLevels.map((level) => [level.id, level]))
  const sentences: string[] = []
  for (const level of site.triggerLevels) {
    const was = known?.get(level.id)
    if (known ? !was : dated(level.validFrom))
      sentences.push(
        `${says(level)} from ${at(level.validFrom)}. ${level.author}, approved by ${level.approver}: ${level.reason}`,
      )
    else if (was && JSON.stringify(was) !== JSON.stringify(level) && level.validUntil !== was.validUntil)
      sentences.push(
        `${says(level)} ${level.validUntil === null ? 'goes on' : `ends ${at(level.validUntil)}`}.`,
      )
    else if (was && JSON.stringify(was) !== JSON.stringify(level)) sentences.push(`${says(level)}: changed.`)
    else if (!known && level.validUntil !== null && dated(level.validUntil))
      sentences.push(`${says(level)} ended ${at(level.validUntil)}.`)
  }
  for (const was of before?.triggerLevels ?? [])
    if (!site.triggerLevels.some(({ id }) => id === was.id))
      sentences.push(`${was.id} is no longer among the records.`)
  return sentences
}

/** Rows of which the same is to be said, as one sentence: their names, then what is said. */
function together<Row>(
  rows: readonly Row[],
  says: (row: Row) => string,
  nameOf: (row: Row) => string,
): readonly string[] {
  return [...groupBy(rows, says)].map(([said, alike]) => `${alike.map(nameOf).join(', ')}: ${said}`)
}

/** Approvals made together are told together: who stands for which instruments, and on what it rests. */
function approvalChanges(
  before: SiteDocument | null,
  site: SiteDocument,
  dated: (epochMs: number) => boolean,
  zone: string,
): readonly string[] {
  const known = before && new Map(before.approvals.map((one) => [one.id, one]))
  const made = site.approvals.filter(({ id, approvedAtEpochMs }) =>
    known ? !known.has(id) : dated(approvedAtEpochMs),
  )
  const day = (epochMs: number) => dayText(siteDay(epochMs, zone))
  const changed = known
    ? site.approvals.filter(({ id, changedSince }) => changedSince && known.get(id)?.changedSince === false)
    : site.approvals.filter(({ changedSince }) => changedSince)
  const gone = (before?.approvals ?? []).filter(({ id }) => !site.approvals.some((one) => one.id === id))
  return [
    ...together(
      made,
      ({ fromEpochMs, untilEpochMs, approvedAtEpochMs, approver, statement }) =>
        `readings from ${day(fromEpochMs)} until ${day(untilEpochMs)} approved by ${approver}, ${instantText(approvedAtEpochMs, zone)}: ${statement}`,
      ({ instrument }) => instrument,
    ),
    ...changed.map(
      ({ id, instrument }) =>
        `${id}, ${instrument}: what its values are made by was changed after the approval; they are provisional again.`,
    ),
    ...gone.map(({ id, instrument }) => `${id}, ${instrument}: the approval was taken back.`),
  ]
}
