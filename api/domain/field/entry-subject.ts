import type { FieldEntry } from './field-entry.ts'

/**
 * What an entry is about, as a key: entries on one subject must follow one another, or they stand side by side.
 * A note, a reading or a memory file is about itself alone and contradicts nothing here; two readings of one sensor
 * at one instant are held against each other where readings are taken in.
 */
export function entrySubject({ id, body }: Pick<FieldEntry, 'id' | 'body'>): string {
  switch (body.kind) {
    case 'coverage-test':
      return `coverage-test:${body.test}`
    case 'receiver-record':
      return `receiver-record:${body.test}`
    case 'installation':
      return `installation:${body.instrument}`
    case 'second-check':
      return `second-check:${body.instrument}:${body.entry}`
    case 'commissioning-step':
      return `commissioning:${body.logger}:${body.commissioning}:${body.step}`
    case 'commissioning-signature':
      return `signature:${body.logger}:${body.commissioning}`
    case 'resolution':
      return body.subject
    case 'reading':
    case 'note':
    case 'damage':
    case 'memory-file':
      return id
  }
}
