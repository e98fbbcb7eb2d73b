import { createMemo, createRoot, createSignal } from 'solid-js'
import { cutOffEpochMs } from './frozen.ts'
import { siteDocument, stateDocument } from './site-document.ts'

/** `present` follows the newest state; an instant stays where it was put. */
type ClockSetting = 'present' | number

export interface Span {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

const [wanted, setSetting] = createSignal<ClockSetting>('present')
const [knownSpan, setKnownSpan] = createSignal<Span | null>(null)

/** No clock passes the cut-off of frozen data: from there on it shows what is known there. */
const setting = (): ClockSetting => {
  const [at, last] = [wanted(), cutOffEpochMs()]
  return at !== 'present' && last !== null && at >= last ? 'present' : at
}

/** What the address bar keeps of the clock. */
export const clockSetting = setting

export const isAtPresent = (): boolean => setting() === 'present'

/** The instant that counts as the present on this site, UTC ms: of frozen data their cut-off; null until the states are there. */
export const presentEpochMs = (): number | null =>
  cutOffEpochMs() ?? stateDocument()?.asOfEpochMs ?? siteDocument()?.facts.presentEpochMs ?? null

/** The one site clock, UTC ms. Null only while the present is asked for and not yet known. */
export const clockEpochMs = createRoot(() =>
  createMemo((): number | null => {
    const at = setting()
    return at === 'present' ? presentEpochMs() : at
  }),
)

/** First and last instant that the clock can show. */
export const spanEpochMs = createRoot(() =>
  createMemo((): Span => {
    const until = presentEpochMs() ?? 0
    const known = knownSpan()
    const starts = siteDocument()?.stages.map((stage) => stage.startsAt) ?? []
    const from = known?.fromEpochMs ?? Math.min(until, ...starts)
    return { fromEpochMs: Math.min(from, until), untilEpochMs: until }
  }),
)

/** Names the span of the published readings, once the list of slices has said it. */
export function knowSpan(span: Span | null): void {
  setKnownSpan(span)
}

/** Puts the clock at an instant within the span; the last instant is the present. */
export function scrubTo(atEpochMs: number): void {
  const { fromEpochMs, untilEpochMs } = spanEpochMs()
  if (untilEpochMs === 0) setSetting(atEpochMs)
  else if (atEpochMs >= untilEpochMs) setSetting('present')
  else setSetting(Math.max(fromEpochMs, Math.round(atEpochMs)))
}

/** Moves the clock by a length of time, forwards positive. */
export function stepClock(lengthMs: number): void {
  const at = clockEpochMs()
  if (at !== null) scrubTo(at + lengthMs)
}

export function jumpToPresent(): void {
  setSetting('present')
}

/** Puts the clock as an address says, without asking whether the span is known yet. */
export function restoreClock(at: ClockSetting): void {
  setSetting(at)
}
