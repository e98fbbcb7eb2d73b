import type { LevelDraft } from '#domain/levels/level-change.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { WatchedOfSeries } from '#domain/site/vocabulary.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'

/** A level as a form holds it: text as typed, hysteresis in percent, instants as the site's clock shows them. */
export interface LevelFields {
  readonly id: string
  readonly series: string
  readonly level: string
  readonly watches: WatchedOfSeries
  readonly direction: TriggerLevel['direction']
  readonly value: string
  readonly against: string
  readonly needed: string
  readonly windowMinutes: string
  readonly changeSince: string
  readonly stage: string
  readonly holdReadings: string
  readonly holdMinutes: string
  readonly hysteresisPercent: string
  readonly longestGapMinutes: string
  readonly validFrom: string
  readonly validUntil: string
  readonly action: string
  readonly owner: string
  readonly withinMinutes: string
  readonly reason: string
}

/** The fields that a kind of level looks at, beside those of every level. */
export const fieldsOfKind: Readonly<Record<WatchedOfSeries, readonly (keyof LevelFields)[]>> = {
  value: ['direction', 'value', 'holdReadings', 'holdMinutes', 'hysteresisPercent', 'longestGapMinutes'],
  change: [
    'direction',
    'value',
    'changeSince',
    'holdReadings',
    'holdMinutes',
    'hysteresisPercent',
    'longestGapMinutes',
  ],
  rate: [
    'direction',
    'value',
    'windowMinutes',
    'holdReadings',
    'holdMinutes',
    'hysteresisPercent',
    'longestGapMinutes',
  ],
  difference: [
    'direction',
    'value',
    'against',
    'windowMinutes',
    'holdReadings',
    'holdMinutes',
    'hysteresisPercent',
    'longestGapMinutes',
  ],
  silence: ['value', 'holdMinutes'],
  combination: ['against', 'needed'],
}

/** Fields of a level that is to be changed, or of a new one of a series. */
export function fieldsOfLevel(
  level: LevelDraft | null,
  given: { readonly series: string; readonly fromEpochMs: number; readonly zone: string },
): LevelFields {
  const text = (value: number | null | undefined) => (value == null ? '' : String(value))
  const local = (epochMs: number | null | undefined) =>
    epochMs == null ? '' : toLocalField(epochMs, given.zone)
  return {
    id: level?.id ?? '',
    series: level?.series ?? given.series,
    level: text(level?.level ?? 1),
    watches: level ? watchedBy(level) : 'value',
    direction: level?.direction ?? 'above',
    value: text(level?.value),
    against: level?.against ?? '',
    needed: text(level?.needed),
    windowMinutes: text(level?.windowMinutes),
    changeSince: local(level?.changeSince),
    stage: level?.stage ?? '',
    holdReadings: text(level?.holdReadings),
    holdMinutes: text(level?.holdMinutes),
    hysteresisPercent: text(
      level?.hysteresisShare == null ? null : Number((level.hysteresisShare * 100).toPrecision(6)),
    ),
    longestGapMinutes: text(level?.longestGapMinutes),
    validFrom: local(given.fromEpochMs),
    validUntil: local(level?.validUntil),
    action: level?.action ?? '',
    owner: level?.owner ?? '',
    withinMinutes: text(level?.withinMinutes),
    reason: level?.reason ?? '',
  }
}

/** What a form says, or which of its fields cannot be read. Fields that the kind does not look at are left out. */
export function levelOfFields(
  fields: LevelFields,
  zone: string,
): { readonly level: LevelDraft } | { readonly unread: ReadonlyMap<keyof LevelFields, string> } {
  const unread = new Map<keyof LevelFields, string>()
  const looked = new Set(fieldsOfKind[fields.watches])
  const number = (field: keyof LevelFields, required: boolean): number | null => {
    const typed = fields[field].trim().replace('−', '-')
    if (typed === '') {
      if (required) unread.set(field, 'Give a number.')
      return null
    }
    const value = Number(typed)
    if (Number.isFinite(value)) return value
    unread.set(field, `“${typed}” is not a number. Write it with a decimal point.`)
    return null
  }
  const optional = (field: keyof LevelFields) => (looked.has(field) ? number(field, false) : null)
  const instant = (field: keyof LevelFields, required: boolean): number | null => {
    if (fields[field] === '') {
      if (required) unread.set(field, 'Give date and time.')
      return null
    }
    const at = fromLocalField(fields[field], zone)
    if (at === null) unread.set(field, 'Give date and time.')
    return at
  }
  const words = (field: keyof LevelFields, wanted: string) => {
    const typed = fields[field].trim()
    if (typed === '') unread.set(field, wanted)
    return typed
  }
  const combination = fields.watches === 'combination'
  const needed = optional('needed')
  const against = looked.has('against') && fields.against.trim() !== '' ? fields.against.trim() : null
  const percent = optional('hysteresisPercent')
  const level: LevelDraft = {
    id: words('id', 'Give it a name.'),
    series: words('series', 'Choose a series.'),
    level: number('level', true) ?? 1,
    direction: looked.has('direction') ? fields.direction : 'above',
    value: combination ? (needed ?? membersOf({ against }).length) : (number('value', true) ?? 0),
    validFrom: instant('validFrom', true) ?? 0,
    validUntil: instant('validUntil', false),
    action: words('action', 'Say what is done when it is reached.'),
    owner: words('owner', 'Say who does it.'),
    withinMinutes: number('withinMinutes', true) ?? 1,
    reason: words('reason', 'Say where the value comes from.'),
    watches: fields.watches === 'value' ? null : fields.watches,
    against,
    needed,
    windowMinutes: optional('windowMinutes'),
    changeSince: looked.has('changeSince') ? instant('changeSince', true) : null,
    stage: fields.stage === '' ? null : fields.stage,
    holdReadings: optional('holdReadings'),
    holdMinutes: optional('holdMinutes'),
    hysteresisShare: percent === null ? null : percent / 100,
    longestGapMinutes: optional('longestGapMinutes'),
  }
  return unread.size > 0 ? { unread } : { level }
}
