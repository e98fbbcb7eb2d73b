import { ServerRefused, sentenceOf } from '../../state/ask-server.ts'

/** What was wrong, each a sentence: the single faults where the server told them. */
export function sentencesOf(cause: unknown): readonly string[] {
  const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
  return issues.length > 0 ? issues.map(({ message }) => message) : [sentenceOf(cause)]
}
