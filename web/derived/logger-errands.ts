import type { LoggerLine } from './network-condition.ts'
import type { LoggerErrand } from './round-stops.ts'

/** Loggers that a person has to go to: those silent, never heard or with cells at their limit first, then those to be looked into. */
export const loggerErrands = (lines: readonly LoggerLine[]): readonly LoggerErrand[] =>
  lines.flatMap(({ facts, condition, battery }): LoggerErrand[] => {
    const { standing, remarks } = condition
    if (standing === 'silent' || standing === 'never-heard' || battery?.left.kind === 'below-limit')
      return [{ logger: facts.logger, urgency: 0, remarks }]
    return standing === 'look-into' ? [{ logger: facts.logger, urgency: 1, remarks }] : []
  })
