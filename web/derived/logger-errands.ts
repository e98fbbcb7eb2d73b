import type { LoggerLine } from './network-condition.ts'
import type { LoggerErrand } from './round-stops.ts'

/** Loggers that a person has to go to: silent or never heard first, then those to be looked into. */
export const loggerErrands = (lines: readonly LoggerLine[]): readonly LoggerErrand[] =>
  lines.flatMap(({ facts, condition }): LoggerErrand[] => {
    const { standing, remarks } = condition
    if (standing === 'silent' || standing === 'never-heard')
      return [{ logger: facts.logger, urgency: 0, remarks }]
    return standing === 'look-into' ? [{ logger: facts.logger, urgency: 1, remarks }] : []
  })
