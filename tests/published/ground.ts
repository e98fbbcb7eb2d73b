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

/** Gaussian settlement trough. Tunnel 6 m across, axis 20 m deep, K 0.5, volume loss 1 %. */
export const trough = {
  source: "Peck (1969); O'Reilly & New (1982), as restated in open theses",
  sourceKind: 'published',
  diameterMetres: 6,
  axisDepthMetres: 20,
  widthParameter: 0.5,
  volumeLoss: 0.01,
  widthMetres: 10,
  volumeM3PerMetre: 0.282743338823,
  greatestSettlementMm: 11.2798272358,
  settlements: [
    { offsetMetres: 0, settlementMm: 11.2798272358 },
    { offsetMetres: 5, settlementMm: 9.95441259732 },
    { offsetMetres: 17.3205080757, settlementMm: 2.51686965758 },
    { offsetMetres: 30, settlementMm: 0.125307561715 },
  ],
  /** At y = i, m/m. */
  greatestSlope: 0.00068415610548,
  /** Per metre, at y = 0 and y = √3 i. */
  sagging: 0.000112798272358,
  hogging: 5.03373931516e-5,
  /** Trapezoid rule over ±40 m in steps of 2 m, m³/m: 99.994 % of the whole. */
  volumeWithin40Metres: 0.282724428776,
  /** Two such tunnels at −6 and +6 m, added up; common practice, no published source: ignores interaction. */
  twin: { halfSpacingMetres: 6, atMiddleMm: 18.8434073599, overOneMm: 16.7703085897 },
} as const

/** Width below the surface in clay: i/z₀ = 0.175 + 0.325 (1 − z/z₀). From memory. */
export const troughBelowSurface = {
  source: 'Mair, Taylor & Bracegirdle (1993)',
  sourceKind: 'from memory',
  axisDepthMetres: 20,
  rows: [
    { depthMetres: 0, widthMetres: 10 },
    { depthMetres: 5, widthMetres: 8.375 },
    { depthMetres: 10, widthMetres: 6.75 },
  ],
  greatestAt10MetresMm: 16.7108551642,
} as const
