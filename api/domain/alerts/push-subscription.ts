/** A device that its owner asked to be told on, while its page is closed too (W3C Push API). */
export interface PushSubscription {
  readonly id: string
  readonly account: string
  /** By which the device subscribed: when that session is ended, nothing is sent any more. */
  readonly session: string
  /** What the device said of itself. */
  readonly device: string
  /** Address at the push service of the browser's maker. */
  readonly endpoint: string
  /** The device's public key and its shared secret for encryption (RFC 8291), base64url. */
  readonly p256dh: string
  readonly auth: string
  readonly madeAtEpochMs: number
}
