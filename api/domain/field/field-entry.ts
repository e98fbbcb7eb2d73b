import type { FieldBody } from './field-bodies.ts'

/** A photo, sketch, voice note or file that belongs to an entry; its bytes are named by their SHA-256. */
export interface Attachment {
  /** Lower-case hex. */
  readonly sha256: string
  readonly bytes: number
  readonly mediaType: string
  readonly name: string
}

/** Where the device stood, on the site's grid; accuracy is the radius that the device states, metres. */
export interface DevicePosition {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly accuracyMetres: number
}

/**
 * One thing written down along the works. Entries are made on the device, with an id of their own, and are only
 * ever added: a correction is another entry that follows. What two people wrote without knowing of each other stands
 * side by side until a third entry follows both.
 */
export interface FieldEntry {
  /** UUID, made on the device. */
  readonly id: string
  readonly site: string
  /** Ids of the entries on the same subject that the writer saw as the latest; empty where there were none. */
  readonly follows: readonly string[]
  readonly body: FieldBody
  readonly author: string
  /** UUID of the device. */
  readonly device: string
  /** 1, 2, 3 … on that device: a gap tells that something has not arrived. */
  readonly sequence: number
  /** By the device's own clock. */
  readonly writtenAtEpochMs: number
  /** Device's clock less the server's when they last spoke; null when they never did. */
  readonly clockAheadMs: number | null
  /** Null: not known, or not allowed. */
  readonly position: DevicePosition | null
  readonly attachments: readonly Attachment[]
}
