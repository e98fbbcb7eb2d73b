import { createSignal } from 'solid-js'
import { sentenceOf } from './ask-server.ts'

/** Something that a person must know, and perhaps can try again. */
export interface Notice {
  readonly number: number
  readonly sentence: string
  readonly retry: (() => void) | null
  /** What the button of `retry` says. */
  readonly retryName: string
}

const [notices, setNotices] = createSignal<readonly Notice[]>([])
let made = 0

export { notices }

/** Shows what went wrong until it is put away; the same sentence is shown once. */
export function reportTrouble(what: {
  sentence?: string
  cause?: unknown
  retry?: () => void
  retryName?: string
}): void {
  const sentence = what.sentence ?? sentenceOf(what.cause)
  made += 1
  const notice = {
    number: made,
    sentence,
    retry: what.retry ?? null,
    retryName: what.retryName ?? 'Try again',
  }
  setNotices((now) => [...now.filter((one) => one.sentence !== sentence), notice])
}

export function putAwayNotice(number: number): void {
  setNotices((now) => now.filter((one) => one.number !== number))
}
