/** Linear interpolation over a Delaunay triangulation; points as easting, northing, mm. */
export const linearOverTriangles = {
  source: 'scipy LinearNDInterpolator (Qhull)',
  sourceKind: 'reference software',
  tolerance: 1e-9,
  points: [
    [0, 0, 0],
    [10, 0, -10],
    [10, 10, -20],
    [0, 10, -5],
    [4, 5, -30],
  ],
  rows: [
    { target: [5, 5], expected: -27.5 },
    { target: [8, 5], expected: -20 },
    /** Outside the hull there is no value, and never 0 (definition; common practice, no published source). */
    { target: [12, 5], expected: null },
  ],
} as const

/** Seven samples of Isaaks & Srivastava (1989), chapter 11; the book prints 548.7 (from memory). */
export const sevenSamples = {
  source: 'scipy and R package interp 1.1-3 agree; Isaaks & Srivastava (1989), ch. 11',
  sourceKind: 'reference software',
  tolerance: 1e-8,
  points: [
    [61, 139, 477],
    [63, 140, 696],
    [64, 129, 227],
    [68, 128, 646],
    [71, 140, 606],
    [73, 141, 791],
    [75, 128, 783],
  ],
  target: [65, 137],
  expected: 548.659090909,
} as const

/**
 * Area enclosed by level lines of the cone z = 10 − r, nodes 1 m apart, as a share of πR².
 * Two tools that contour squares agree to 1e-6; triangles of the same squares may differ by the diagonals.
 */
export const coneContours = {
  source: 'd3-contour 4 and gdal_contour 3.6.2 agree to 1e-6',
  sourceKind: 'reference software',
  levels: [2, 5, 8],
  shares: [0.99670727, 0.99075176, 0.94435429],
} as const
