import { createDecipheriv, createECDH, hkdfSync } from 'node:crypto'

/** What a device holds to read pushes with: its private key and its shared secret, base64url. */
export interface PushReader {
  readonly privateKey: string
  readonly auth: string
}

/** Opens the body of a push as the device does: RFC 8188 and RFC 8291, one record. Written from their text. */
export function openPush(body: Buffer, { privateKey, auth }: PushReader): string {
  const salt = body.subarray(0, 16)
  const idLength = body.readUInt8(20)
  const serverKey = body.subarray(21, 21 + idLength)
  const sealed = body.subarray(21 + idLength)
  const device = createECDH('prime256v1')
  device.setPrivateKey(Buffer.from(privateKey, 'base64url'))
  const derive = (input: Uint8Array, saltOf: Uint8Array, info: Uint8Array, bytes: number) =>
    Buffer.from(hkdfSync('sha256', input, saltOf, info, bytes))
  const keyInfo = Buffer.concat([Buffer.from('WebPush: info\0'), device.getPublicKey(), serverKey])
  const input = derive(device.computeSecret(serverKey), Buffer.from(auth, 'base64url'), keyInfo, 32)
  const key = derive(input, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16)
  const nonce = derive(input, salt, Buffer.from('Content-Encoding: nonce\0'), 12)
  const decipher = createDecipheriv('aes-128-gcm', key, nonce)
  decipher.setAuthTag(sealed.subarray(-16))
  const padded = Buffer.concat([decipher.update(sealed.subarray(0, -16)), decipher.final()])
  // The last record ends with a 2 and zeros.
  return padded.subarray(0, padded.lastIndexOf(2)).toString('utf8')
}
