import { createHash } from 'node:crypto'

/** An id as headers carry it: as it is where it is plain, else as its SHA-256. The same id gives the same every time. */
export const headerId = (id: string): string =>
  /^[\w-]{1,200}$/.test(id) ? id : createHash('sha256').update(id).digest('hex')
