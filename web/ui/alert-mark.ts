import type { Palette } from './palettes.ts'
import { symbolBox } from './symbol-markup.ts'

/** How far the response to an open alert is, as it is drawn: a frame that opens as people go on with it. */
export const drawnResponses = ['nobody', 'taken-up', 'verified'] as const
export type DrawnResponse = (typeof drawnResponses)[number]

const near = 3
const far = symbolBox - near
const arm = 12

/**
 * Path of the frame in a box of 48 by 48: closed while nobody has taken the alert up, its four corners once somebody
 * has, the two lower ones once it is verified. Told by shape alone, so that it reads in greyscale.
 */
export function alertFramePath(response: DrawnResponse): string {
  if (response === 'nobody') return `M${near} ${near}H${far}V${far}H${near}Z`
  const lower = `M${near} ${far - arm}V${far}H${near + arm}M${far - arm} ${far}H${far}V${far - arm}`
  if (response === 'verified') return lower
  return `M${near} ${near + arm}V${near}H${near + arm}M${far - arm} ${near}H${far}V${near + arm}${lower}`
}

/** SVG elements of the frame, with a halo that keeps it apart from what lies below. */
export function alertFrameMarkup(
  response: DrawnResponse,
  { ink, halo }: Pick<Palette, 'ink' | 'halo'>,
): string {
  const path = alertFramePath(response)
  const stroke = (colour: string, width: number) =>
    `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-linejoin="miter"/>`
  return stroke(halo, 6) + stroke(ink, response === 'nobody' ? 4 : 3.2)
}
