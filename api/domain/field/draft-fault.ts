import type { Issue } from '../outcome.ts'

/** A fault at a place in the draft, such as `points.0.sensors.1.serial`, with the value that is wrong. */
export const fault = (column: string, code: string, message: string, value?: unknown): Issue => ({
  code,
  column,
  message,
  ...(value === undefined || value === null ? {} : { value: String(value) }),
})
