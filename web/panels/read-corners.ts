import { accept, type Outcome, reject } from '#domain/outcome.ts'
import type { GridPoint } from '../state/section-line.ts'

const how =
  'Write "easting northing; easting northing" in metres of the site grid, with a point as decimal mark.'

/**
 * Corners as they are typed, "easting northing; easting northing" in metres of the site grid. Nothing is left out in
 * silence: the first corner that cannot be read is named. Fewer corners than are needed are refused.
 */
export function readCorners(text: string, fewest: number, what: string): Outcome<readonly GridPoint[]> {
  const written = text.split(';').map((corner) => corner.trim())
  while (written.at(-1) === '') written.pop()
  const corners: GridPoint[] = []
  for (const [place, corner] of written.entries()) {
    const words = corner.split(/[\s,]+/).filter((word) => word !== '')
    const [eastingMetres, northingMetres] = words.map(Number)
    if (
      words.length !== 2 ||
      eastingMetres === undefined ||
      northingMetres === undefined ||
      !Number.isFinite(eastingMetres) ||
      !Number.isFinite(northingMetres)
    )
      return reject({
        code: 'corner-unreadable',
        value: corner,
        message: `Corner ${place + 1}, “${corner}”, is not an easting and a northing. ${how} Nothing was changed.`,
      })
    corners.push({ eastingMetres, northingMetres })
  }
  if (corners.length < fewest)
    return reject({
      code: 'corners-missing',
      value: String(corners.length),
      message: `${what} needs ${fewest === 2 ? 'two' : fewest} corners or more; here is ${['none', 'one'][corners.length] ?? corners.length}. ${how}`,
    })
  return accept(corners)
}

/** Corners of a section line: two at least, not all in one place. */
export function readSectionCorners(text: string): Outcome<readonly GridPoint[]> {
  const read = readCorners(text, 2, 'A section')
  if (!read.ok) return read
  const [first] = read.value
  const apart = read.value.some(
    (one) =>
      Math.abs(one.eastingMetres - (first?.eastingMetres ?? 0)) >= 0.01 ||
      Math.abs(one.northingMetres - (first?.northingMetres ?? 0)) >= 0.01,
  )
  return apart
    ? read
    : reject({
        code: 'corners-in-one-place',
        message:
          'All corners are one place to the centimetre: a line without length cuts nothing. Corners in degrees look like this too: give metres of the site grid.',
      })
}
