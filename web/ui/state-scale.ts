import type { SeriesState } from '#contract/state-document.ts'
import type { Palette } from './palettes.ts'

/**
 * How a value stands at the clock. `late`: no current data. `no-level`: a value to which no trigger level is
 * set. `unknown`: not worked out yet for this instant. `out-of-use`: taken out of use by then, whatever it last said.
 */
export type Standing = 'unknown' | 'out-of-use' | 'late' | 'no-level' | 'within' | `level-${number}`

/**
 * Standing of one series. Without a state, a reading or a current value it has no current data; a level that
 * had been reached before it fell silent still stands, because silence does not undo it.
 */
export function standingOf(state: SeriesState | undefined): Standing {
  if (!state || state.atEpochMs === null) return 'late'
  if (state.level !== null && state.level > 0) return `level-${state.level}`
  if (state.late || state.value === null) return 'late'
  return state.level === null ? 'no-level' : 'within'
}

/** True when a series has no current data, whatever level it stands at. */
export function isSilent(state: SeriesState | undefined): boolean {
  return !state || state.late || state.atEpochMs === null || state.value === null
}

/** True when a series was read and its last reading gave no value: it is silent, though readings may come in time. */
export function readsWithoutValue(state: SeriesState | undefined): boolean {
  return state !== undefined && state.atEpochMs !== null && state.value === null
}

/** Level number of a standing; 0 where none is reached. */
export function levelOf(standing: Standing): number {
  return standing.startsWith('level-') ? Number(standing.slice(6)) : 0
}

/**
 * Order of concern, higher is worse: out of use, no level set, within, not worked out, no current data, Level 1, 2 …
 * No current data stands above within: silence must not look calm.
 */
export function concernOf(standing: Standing): number {
  const level = levelOf(standing)
  if (level > 0) return 10 + level
  return { 'out-of-use': -1, 'no-level': 0, within: 1, unknown: 2, late: 3 }[standing as 'no-level'] ?? 0
}

/** The standing in words; levels by the project's own names. */
export function standingName(standing: Standing, levelNames: readonly string[]): string {
  const level = levelOf(standing)
  if (level > 0) return levelNames[level - 1] ?? `Level ${level}`
  const names: Readonly<Record<string, string>> = {
    unknown: 'Being worked out',
    'out-of-use': 'Out of use',
    late: 'No current data',
    'no-level': 'No level on its value',
    within: 'Within levels',
  }
  return names[standing] ?? standing
}

/** Fill of a standing; null where it is drawn hollow. Levels go from ochre to deep magenta over `levels` steps. */
export function standingColour(standing: Standing, levels: number, palette: Palette): string | null {
  if (standing === 'within') return palette.withinLevels
  const level = levelOf(standing)
  if (level === 0) return null
  const share = levels <= 1 ? 0 : Math.min(1, (level - 1) / (levels - 1))
  return mixColours(palette.firstLevel, palette.lastLevel, share)
}

/** A colour between two, `#rrggbb`; share 0 is the first. */
export function mixColours(from: string, to: string, share: number): string {
  const channel = (colour: string, place: number) => Number.parseInt(colour.slice(place, place + 2), 16)
  const mixed = [1, 3, 5].map((place) =>
    Math.round(channel(from, place) + (channel(to, place) - channel(from, place)) * share)
      .toString(16)
      .padStart(2, '0'),
  )
  return `#${mixed.join('')}`
}
