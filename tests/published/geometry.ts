/** Values that geometry must give back, each with where it comes from. */

/** IOGP Guidance Note 7-2, method 9807 (Transverse Mercator), example as in the EPSG dataset. Published. */
export const transverseMercatorExample = {
  source: 'IOGP Guidance Note 7-2, EPSG method 9807, example',
  sourceKind: 'published',
  crs: '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996013 +x_0=400000 +y_0=-100000 +a=6377563.396 +rf=299.32496 +units=m +no_defs',
  position: [0.5, 50.5],
  grid: [577274.99, 69740.5],
  toleranceMetres: 0.005,
  toleranceDegrees: 1e-7,
} as const

/** IOGP GIGS test 5101 part 2, as carried in the PROJ test suite; UTM zone 31N. Published, good to 0.03 m. */
export const utmZone31 = {
  source: 'IOGP GIGS test 5101 part 2, as carried in the PROJ test suite',
  sourceKind: 'published',
  crs: 'EPSG:32631',
  toleranceMetres: 0.002,
  rows: [
    { position: [-2, 80], grid: [403186.945, 8885748.708] },
    { position: [-2, 60], grid: [221288.77, 6661953.041] },
    { position: [-2, 40], grid: [73106.698, 4439746.917] },
    { position: [-2, 0], grid: [-57087.12, 0] },
    { position: [-2, -40], grid: [73106.698, -4439746.917] },
    { position: [0, 60], grid: [332705.179, 6655205.484] },
    { position: [1, 60], grid: [388455.958, 6653097.435] },
  ],
} as const

/** GeographicLib 2.1.2, GeoConvert -u; rows in ordinary zones. Reference software. */
export const utmElsewhere = {
  source: 'GeographicLib 2.1.2, GeoConvert -u',
  sourceKind: 'reference software',
  toleranceMetres: 0.001,
  rows: [
    { crs: 'EPSG:32638', position: [44.4, 33.3], grid: [444140.545, 3684706.356] },
    { crs: 'EPSG:32645', position: [86.925555556, 27.988055556], grid: [492679.626, 3095881.456] },
    { crs: 'EPSG:32756', position: [151.215297, -33.856784], grid: [334900.261, 6252290.522] },
  ],
} as const

/** Derived from first principles, computed twice in different languages. Reference software. */
export const straightHole = {
  source: 'first principles: depth × cos dip horizontally, depth × sin dip down',
  sourceKind: 'reference software',
  hole: {
    eastingMetres: 1000,
    northingMetres: 2000,
    collarLevelMetres: 150,
    azimuthDegrees: 135,
    dipDegrees: 60,
  },
  depthMetres: 40,
  position: { eastingMetres: 1014.14213562, northingMetres: 1985.85786438, levelMetres: 115.358983849 },
  toleranceMetres: 1e-6,
} as const

/** A nominally vertical hole one degree off, over 50 m. First principles. Reference software. */
export const leaningHole = {
  source: 'first principles',
  sourceKind: 'reference software',
  dipDegrees: 89,
  depthMetres: 50,
  horizontalMetres: 0.872620321864,
  verticalMetres: 49.9923847578,
  toleranceMetres: 1e-6,
} as const

/** Line (0,0)-(100,0)-(100,100), start chainage 1000, right of travel positive. First principles. Reference software. */
export const bentLine = {
  source: 'first principles, computed twice in different languages',
  sourceKind: 'reference software',
  line: [
    [0, 0],
    [100, 0],
    [100, 100],
  ],
  startChainageMetres: 1000,
  rows: [
    { point: [40, 10], chainageMetres: 1040, offsetMetres: -10 },
    { point: [90, 50], chainageMetres: 1150, offsetMetres: -10 },
    { point: [110, -10], chainageMetres: 1100, offsetMetres: 14.1421356237 },
    { point: [60, -7.5], chainageMetres: 1060, offsetMetres: 7.5 },
  ],
  tie: { point: [90, 10], distanceMetres: 10, candidates: [1090, 1110] },
  beforeStart: {
    point: [-5, 3],
    clamped: { chainageMetres: 1000, distanceMetres: 5.83095189485 },
    extended: { chainageMetres: 995, offsetMetres: -3 },
  },
  toleranceMetres: 1e-9,
} as const

/** Point into a vertical section from (1000, 2000) at azimuth 040. First principles. Reference software. */
export const straightSection = {
  source: 'first principles, computed twice in different languages',
  sourceKind: 'reference software',
  origin: [1000, 2000],
  azimuthDegrees: 40,
  point: [1100, 2050],
  chainageMetres: 102.580983125,
  offsetMetres: 44.4650638276,
  toleranceMetres: 1e-6,
} as const
