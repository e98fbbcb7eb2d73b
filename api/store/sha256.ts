import { createHash } from 'node:crypto'

/** SHA-256 of a text's UTF-8 bytes, hex, as the chain of the audit record takes it. */
export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')
