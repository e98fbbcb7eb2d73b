import type { MessageWords, ToldAlert } from './message-words.ts'

/** What a machine reads of an alert, instants as RFC 3339 in UTC. */
export function factsOf({ alert, step, series, lowerOpen }: ToldAlert): MessageWords['facts'] {
  const { cause, episode } = alert
  if (cause.kind === 'drill') return { duty: cause.duty, step }
  const { level } = cause
  return {
    series: level.series,
    level: level.level,
    levelId: level.id,
    levelValue: level.value,
    value: episode?.peakValue ?? null,
    unit: series?.unit ?? null,
    crossedAt: toText(episode?.crossedAtEpochMs),
    receivedAt: toText(episode?.knownAtEpochMs),
    raisedAt: toText(alert.raisedAtEpochMs),
    action: level.action,
    owner: level.owner,
    withinMinutes: level.withinMinutes,
    step,
    lowerOpen: lowerOpen.map((lower) => lower.alert).join(' ') || null,
  }
}

const toText = (epochMs: number | undefined) =>
  epochMs === undefined ? null : new Date(epochMs).toISOString()
