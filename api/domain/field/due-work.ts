/** A sensor as far as its next reading goes. */
export interface SensorToVisit {
  /** point/measure */
  readonly id: string
  readonly instrument: string
  readonly byHand: boolean
  readonly critical: boolean
  readonly intervalMinutes: number
  /** Last reading known, of whatever way; null: none. */
  readonly lastAtEpochMs: number | null
  /** Nothing came in time. */
  readonly late: boolean
  /** Its last reading gave no value: gone to as what is silent is. */
  readonly withoutValue: boolean
  /** Trigger levels reached; 0 none, null not known. */
  readonly level: number | null
  /** Who or what reads it. */
  readonly logger: string | null
  readonly certificateDueAtEpochMs: number | null
}

/** Why a place should be gone to. */
export interface Errand {
  readonly instrument: string
  readonly kind:
    | 'read-by-hand'
    | 'silent-critical'
    | 'silent'
    | 'without-value'
    | 'level-reached'
    | 'certificate-due'
    | 'visit-ordered'
  /** 0: cannot wait; 1: due; 2: can be taken along. */
  readonly urgency: 0 | 1 | 2
  readonly sensors: readonly string[]
  /** When it was or will be due; null where it has no time of its own. */
  readonly dueAtEpochMs: number | null
  /** Something critical among them has no current data. */
  readonly criticalWithoutData: boolean
}

const minuteMs = 60_000

/**
 * What is to be done where, at an instant: readings by hand that fall due before `horizonEpochMs`, sensors that fell
 * silent, levels reached (to be looked at on the spot), certificates that end. One errand a kind and instrument.
 * By hand overdue by more than a whole interval, and silence of what is critical, read by hand or not, cannot wait.
 * Common practice, no published source.
 */
export function dueWork(
  sensors: readonly SensorToVisit[],
  asOfEpochMs: number,
  horizonEpochMs: number,
): readonly Errand[] {
  const errands = new Map<string, Errand>()
  const add = (
    sensor: SensorToVisit,
    kind: Errand['kind'],
    urgency: Errand['urgency'],
    dueAt: number | null,
  ) => {
    const key = `${sensor.instrument}\n${kind}`
    const before = errands.get(key)
    errands.set(key, {
      instrument: sensor.instrument,
      kind,
      urgency: Math.min(urgency, before?.urgency ?? 2) as Errand['urgency'],
      sensors: [...(before?.sensors ?? []), sensor.id],
      dueAtEpochMs: earlier(before?.dueAtEpochMs ?? null, dueAt),
      criticalWithoutData: (before?.criticalWithoutData ?? false) || (sensor.critical && sensor.late),
    })
  }
  for (const sensor of sensors) {
    const { byHand, critical, late, level, lastAtEpochMs, certificateDueAtEpochMs } = sensor
    const intervalMs = sensor.intervalMinutes * minuteMs
    if (byHand) {
      const dueAt = lastAtEpochMs === null ? null : lastAtEpochMs + intervalMs
      const cannotWait = (critical && late) || dueAt === null || dueAt + intervalMs <= asOfEpochMs
      if (cannotWait || dueAt <= horizonEpochMs) add(sensor, 'read-by-hand', cannotWait ? 0 : 1, dueAt)
    } else if (late) add(sensor, critical ? 'silent-critical' : 'silent', critical ? 0 : 1, lastAtEpochMs)
    if ((level ?? 0) > 0) add(sensor, 'level-reached', 1, null)
    if (sensor.withoutValue && (byHand || !late))
      add(sensor, 'without-value', critical ? 0 : 1, lastAtEpochMs)
    if (certificateDueAtEpochMs !== null && certificateDueAtEpochMs <= horizonEpochMs)
      add(sensor, 'certificate-due', 2, certificateDueAtEpochMs)
  }
  return [...errands.values()]
}

const earlier = (one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : Math.min(one, other)
