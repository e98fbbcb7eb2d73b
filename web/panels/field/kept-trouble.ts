import { sentenceOf } from '../../state/ask-server.ts'

/** Why nothing was kept on this device, as a sentence; a full device is told as one. */
export const keptTrouble = (cause: unknown): string =>
  `Nothing was kept: ${
    cause instanceof DOMException && cause.name === 'QuotaExceededError'
      ? 'there is no room left on this device. Send what waits, or free storage, then save again; what you typed stands above.'
      : sentenceOf(cause)
  }`
