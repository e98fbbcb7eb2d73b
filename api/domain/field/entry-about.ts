import type { FieldBody } from './field-bodies.ts'

/**
 * The instrument, measuring point, logger or sensor (point/measure) that an entry speaks of, by its own words; null
 * where it speaks of a place, a coverage test or a decision alone.
 */
export function entryAbout(body: FieldBody): string | null {
  switch (body.kind) {
    case 'reading':
      return body.sensor
    case 'note':
    case 'damage':
      return body.about
    case 'installation':
    case 'second-check':
      return body.instrument
    case 'commissioning-step':
    case 'commissioning-signature':
    case 'memory-file':
      return body.logger
    case 'coverage-test':
      return body.logger
    case 'receiver-record':
    case 'resolution':
      return null
  }
}
