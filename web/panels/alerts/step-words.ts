import type { Action } from '#domain/access/permissions.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'

/** A step of a response as its button and its form say it. */
interface StepWords {
  readonly button: string
  /** What the words of the form are. */
  readonly words: string
  readonly hint: string
  readonly required: boolean
  readonly done: string
}

export const stepWords: Readonly<Record<AlertAction['kind'], StepWords>> = {
  acknowledge: {
    button: 'Acknowledge',
    words: 'What you are going to do',
    hint: 'Acknowledging tells the others that you have it in hand. It resolves nothing.',
    required: false,
    done: 'acknowledged',
  },
  verify: {
    button: 'Verify',
    words: 'What was found, and how',
    hint: 'Who looked at what; kept for good.',
    required: true,
    done: 'verified',
  },
  close: {
    button: 'Close',
    words: 'Why the response ends',
    hint: 'On whose decision, and what was done. Closing changes nothing in the ground; a level that is still reached goes on being shown.',
    required: true,
    done: 'closed',
  },
  reopen: {
    button: 'Open again',
    words: 'Why it is opened again',
    hint: 'People are told anew, and every step is taken again.',
    required: true,
    done: 'opened again',
  },
}

/** What one must be permitted to take a step; the server decides. */
export const stepPermission: Readonly<Record<AlertAction['kind'], Action>> = {
  acknowledge: 'add',
  verify: 'change-records',
  close: 'change-records',
  reopen: 'change-records',
}
