import { createSignal } from 'solid-js'

const [unansweredSince, setUnansweredSince] = createSignal<number | null>(null)
let lastAnswerEpochMs: number | null = null

/** Since when (this device's clock) the server has not answered; null while it does. */
export const unansweredSinceEpochMs = unansweredSince

export function reportAnswer(atEpochMs: number): void {
  lastAnswerEpochMs = atEpochMs
  setUnansweredSince(null)
}

/** An attempt that got no answer: what is shown is as old as the last one that did. */
export function reportNoAnswer(atEpochMs: number): void {
  setUnansweredSince(lastAnswerEpochMs ?? atEpochMs)
}

/** What is shown was kept on this device then, because the server does not answer. */
export function reportKept(keptAtEpochMs: number): void {
  lastAnswerEpochMs = keptAtEpochMs
  setUnansweredSince(keptAtEpochMs)
}

/** Whatever became of the questions: without an answer for so long, the server does not answer. */
export function noticeSilence(nowEpochMs: number, afterMs: number): void {
  if (lastAnswerEpochMs !== null && nowEpochMs - lastAnswerEpochMs > afterMs)
    setUnansweredSince(lastAnswerEpochMs)
}
