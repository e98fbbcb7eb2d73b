/**
 * A transformation of the plane by six numbers (EPSG method 9624):
 * E = a0 + a1·x + a2·y, N = b0 + b1·x + b2·y.
 */
export interface PlaneTransform {
  readonly a0: number
  readonly a1: number
  readonly a2: number
  readonly b0: number
  readonly b1: number
  readonly b2: number
}

/** The plane of the result, in the units of its shift. */
export function transformPlane(by: PlaneTransform, [x, y]: readonly [number, number]) {
  return [by.a0 + by.a1 * x + by.a2 * y, by.b0 + by.b1 * x + by.b2 * y] as const
}

/**
 * A similarity: E = a·x − b·y + shift, N = b·x + a·y + shift, with a = scale × cos and b = scale × sin of the turn,
 * counter-clockwise positive. It keeps shapes; the scale is units of the result per unit given.
 */
export function similarity(given: {
  readonly scale: number
  readonly turnRadians: number
  readonly shiftEast: number
  readonly shiftNorth: number
}): PlaneTransform {
  const a = given.scale * Math.cos(given.turnRadians)
  const b = given.scale * Math.sin(given.turnRadians)
  return { a0: given.shiftEast, a1: a, a2: -b, b0: given.shiftNorth, b1: b, b2: a }
}

/** The way back; null where the transformation flattens the plane onto a line. */
export function invertPlane({ a0, a1, a2, b0, b1, b2 }: PlaneTransform): PlaneTransform | null {
  const size = a1 * b2 - a2 * b1
  if (size === 0 || !Number.isFinite(size)) return null
  const [c1, c2, d1, d2] = [b2 / size, -a2 / size, -b1 / size, a1 / size]
  return { a0: -(c1 * a0 + c2 * b0), a1: c1, a2: c2, b0: -(d1 * a0 + d2 * b0), b1: d1, b2: d2 }
}
