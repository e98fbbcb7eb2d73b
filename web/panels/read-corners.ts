import type { GridPoint } from '../state/section-line.ts'

/**
 * Corners of a section line as they are typed, "easting northing; easting northing" in metres of the site grid. Nothing
 * is left out in silence: the first corner that cannot be read is named.
 */
export function readCorners(
  text: string,
):
  | { readonly ok: true; readonly corners: readonly GridPoint[] }
  | { readonly ok: false; readonly sentence: string } {
  const written = text.split(';').map((corner) => corner.trim())
  while (written.at(-1) === '') written.pop()
  const how =
    'Write "easting northing; easting northing" in metres of the site grid, with a point as decimal mark.'
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
      return {
        ok: false,
        sentence: `Corner ${place + 1}, “${corner}”, is not an easting and a northing. ${how} No line was changed.`,
      }
    corners.push({ eastingMetres, northingMetres })
  }
  const [first] = corners
  if (!first || corners.length < 2)
    return {
      ok: false,
      sentence: `A section needs two corners or more; here is ${corners.length === 1 ? 'one' : 'none'}. ${how}`,
    }
  const apart = corners.some(
    (one) =>
      Math.abs(one.eastingMetres - first.eastingMetres) >= 0.01 ||
      Math.abs(one.northingMetres - first.northingMetres) >= 0.01,
  )
  return apart
    ? { ok: true, corners }
    : {
        ok: false,
        sentence:
          'All corners are one place to the centimetre: a line without length cuts nothing. Corners in degrees look like this too: give metres of the site grid.',
      }
}
