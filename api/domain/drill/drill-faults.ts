import { parseTimeOfDay } from '../roster/shift-times.ts'

interface DrillFields {
  readonly drillDayOfMonth?: number | null
  readonly drillTime?: string | null
  readonly drillDuty?: string | null
}

/** What is wrong with the drill of a site: it has day, time and duty, or none of them. */
export function drillFaults(fields: DrillFields): readonly {
  readonly field: 'drillDayOfMonth' | 'drillTime' | 'drillDuty'
  readonly code: string
  readonly expected: string
  readonly message: string
}[] {
  const names = ['drillDayOfMonth', 'drillTime', 'drillDuty'] as const
  const missing = names.filter((name) => (fields[name] ?? null) === null)
  const time = fields.drillTime ?? null
  return [
    ...(missing.length === 0 || missing.length === names.length
      ? []
      : missing.map((field) => ({
          field,
          code: 'drill-half-stated',
          expected: 'day, time and duty of the drill, or none of them',
          message: `The monthly drill has no ${field}. Give drillDayOfMonth, drillTime and drillDuty, or none of them.`,
        }))),
    ...(time === null || parseTimeOfDay(time) !== null
      ? []
      : [
          {
            field: 'drillTime' as const,
            code: 'time-of-day-expected',
            expected: 'hours and minutes, such as 10:00',
            message: `"${time}" is not a time of day. Write hours and minutes, such as 10:00.`,
          },
        ]),
  ]
}
