import { createSignal } from 'solid-js'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import type { Finding } from '#domain/alerts/alert-event.ts'

/** A step of a response that somebody is writing; what is typed stays though the list around it changes. */
export interface StepDraft {
  readonly site: string
  readonly alert: number
  readonly kind: AlertAction['kind']
  /** Number of the last event that its writer has seen. */
  readonly latest: number
  readonly words: string
  readonly finding: Finding | null
  readonly author: string
  /** What others did to the alert since, told when sending was refused for it. */
  readonly meanwhile: readonly string[]
}

const [stepDraft, setStepDraft] = createSignal<StepDraft | null>(null)

/** The step being written; null: none. One at a time. */
export { stepDraft }

export function beginStep(draft: StepDraft): void {
  setStepDraft(draft)
}

export function changeStep(
  some: Partial<Pick<StepDraft, 'words' | 'finding' | 'author' | 'latest' | 'meanwhile'>>,
): void {
  setStepDraft((now) => now && { ...now, ...some })
}

export function leaveStep(): void {
  setStepDraft(null)
}

/** The step as it is sent; a verification without a finding is none yet. */
export function actionOf({ kind, words, finding }: StepDraft): AlertAction | null {
  switch (kind) {
    case 'acknowledge':
      return { kind, note: words }
    case 'verify':
      return finding === null ? null : { kind, finding, note: words }
    case 'close':
    case 'reopen':
      return { kind, reason: words }
  }
}
