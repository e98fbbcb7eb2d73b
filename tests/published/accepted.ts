import { issueLine, type Outcome } from '#domain/outcome.ts'

/** The value of an outcome; a refusal fails the row with its reasons. */
export function accepted<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value
  throw new Error(outcome.issues.map(issueLine).join(' '))
}
