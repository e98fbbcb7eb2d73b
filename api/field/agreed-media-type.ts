/** So many bytes at the beginning tell what is told here. */
export const headBytes = 12

const ascii = (text: string): readonly number[] => [...text].map((one) => one.charCodeAt(0))

/**
 * How files of a media type begin, undefined: any byte. JPEG: ISO/IEC 10918-1 (SOI and a marker); PNG: W3C, 5.2; WebP:
 * RFC 9649, 2.4; PDF: ISO 32000-1, 7.5.2.
 */
const beginnings: Readonly<Record<string, readonly (number | undefined)[]>> = {
  'image/jpeg': [0xff, 0xd8, 0xff],
  'image/png': [0x89, ...ascii('PNG'), 0x0d, 0x0a, 0x1a, 0x0a],
  'image/webp': [...ascii('RIFF'), undefined, undefined, undefined, undefined, ...ascii('WEBP')],
  'application/pdf': ascii('%PDF-'),
}

/**
 * The media type by which bytes are kept: the declared one where they begin as files of it do, or where nothing is known
 * of how they begin; else bytes of no type, which no page draws. They are kept either way: a photo from along the works
 * is not taken a second time.
 */
export function agreedMediaType(declared: string, head: Uint8Array): string {
  const begins = Object.hasOwn(beginnings, declared) ? beginnings[declared] : undefined
  const agrees = begins?.every((byte, place) => byte === undefined || head[place] === byte) ?? true
  return agrees ? declared : 'application/octet-stream'
}
