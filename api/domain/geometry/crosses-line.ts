import type { SitePoint } from './site-grid.ts'

/** True where the straight way between two points meets a line of straight pieces; touching counts. */
export function crossesLine(from: SitePoint, to: SitePoint, line: readonly SitePoint[]): boolean {
  return line.slice(1).some((end, place) => {
    const start = line[place] as SitePoint
    return (
      sideOf(from, to, start) * sideOf(from, to, end) <= 0 &&
      sideOf(start, end, from) * sideOf(start, end, to) <= 0 &&
      overlaps(from, to, start, end)
    )
  })
}

const sideOf = ([ae, an]: SitePoint, [be, bn]: SitePoint, [pe, pn]: SitePoint): number =>
  Math.sign((be - ae) * (pn - an) - (bn - an) * (pe - ae))

const overlaps = (a: SitePoint, b: SitePoint, c: SitePoint, d: SitePoint): boolean =>
  [0, 1].every(
    (axis) =>
      Math.min(a[axis] as number, b[axis] as number) <= Math.max(c[axis] as number, d[axis] as number) &&
      Math.min(c[axis] as number, d[axis] as number) <= Math.max(a[axis] as number, b[axis] as number),
  )
