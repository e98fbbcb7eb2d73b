/** A file to be written, and how and when it arrives. */
export interface SampleFile {
  /** Path below the target folder. */
  readonly path: string
  readonly text: string
  readonly encoding: 'utf8' | 'latin1'
  readonly receivedEpochMs: number
  readonly from: string
  /** Numbers in it that are readings. */
  readonly readings: number
}

const two = (value: number) => (value < 10 ? `0${value}` : String(value))

/** `20270201` */
export const dayName = (epochMs: number) => new Date(epochMs).toISOString().slice(0, 10).replaceAll('-', '')
/** `2027-02-01T00:00:00Z` */
export const isoText = (epochMs: number) => `${new Date(epochMs).toISOString().slice(0, 19)}Z`
/** `2027-02-01 00:00:00` */
export const plainText = (epochMs: number) => new Date(epochMs).toISOString().slice(0, 19).replace('T', ' ')
/** `01.02.2027;00:00:00` */
export function dottedText(epochMs: number): string {
  const date = new Date(epochMs)
  const day = `${two(date.getUTCDate())}.${two(date.getUTCMonth() + 1)}.${date.getUTCFullYear()}`
  return `${day};${date.toISOString().slice(11, 19)}`
}
/** `01/02/2027 00:00`, on a clock that reads Atlantic/Azores: UTC−1, in summer UTC. */
export function azoresText(epochMs: number): string {
  const summer = epochMs >= Date.UTC(2027, 2, 28, 1) && epochMs < Date.UTC(2027, 9, 31, 1)
  const date = new Date(epochMs - (summer ? 0 : 3_600_000))
  const day = `${two(date.getUTCDate())}/${two(date.getUTCMonth() + 1)}/${date.getUTCFullYear()}`
  return `${day} ${two(date.getUTCHours())}:${two(date.getUTCMinutes())}`
}
