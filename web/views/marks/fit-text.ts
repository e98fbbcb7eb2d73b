/**
 * Text size for a drawing of that size, CSS pixels: never under 12, growing with the room so that a wall
 * is read from five metres.
 */
export const fitText = (widthPixels: number, heightPixels: number): number =>
  Math.round(Math.min(26, Math.max(12, Math.min(widthPixels / 84, heightPixels / 36))))
