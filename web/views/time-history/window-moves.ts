export interface TimeWindow {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/** The narrowest window: five minutes. */
export const narrowestMs = 5 * 60_000

/** Narrows (factor under 1) or widens a window about an instant that keeps its place, within the span. */
export function zoomAbout(
  window: TimeWindow,
  atEpochMs: number,
  factor: number,
  span: readonly [number, number],
): TimeWindow {
  const length = window.untilEpochMs - window.fromEpochMs
  const wanted = Math.min(Math.max(length * factor, narrowestMs), span[1] - span[0])
  const share = length > 0 ? (atEpochMs - window.fromEpochMs) / length : 0.5
  const from = atEpochMs - share * wanted
  return within({ fromEpochMs: from, untilEpochMs: from + wanted }, span)
}

/** Moves a window by a length of time, later positive, within the span. */
export const shiftBy = (window: TimeWindow, lengthMs: number, span: readonly [number, number]): TimeWindow =>
  within({ fromEpochMs: window.fromEpochMs + lengthMs, untilEpochMs: window.untilEpochMs + lengthMs }, span)

/** The window between two instants in either order, within the span and never too narrow. */
export function between(one: number, other: number, span: readonly [number, number]): TimeWindow {
  const from = Math.min(one, other)
  const until = Math.max(one, other, from + narrowestMs)
  return within({ fromEpochMs: from, untilEpochMs: until }, span)
}

function within(window: TimeWindow, [from, until]: readonly [number, number]): TimeWindow {
  const length = Math.min(window.untilEpochMs - window.fromEpochMs, until - from)
  const start = Math.min(Math.max(window.fromEpochMs, from), until - length)
  return { fromEpochMs: Math.round(start), untilEpochMs: Math.round(start + length) }
}
