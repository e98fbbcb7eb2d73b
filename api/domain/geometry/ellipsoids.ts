/** A figure of the earth. */
export interface Ellipsoid {
  readonly semiMajorMetres: number
  readonly inverseFlattening: number
}

/** By their names in PROJ; parameters as in the EPSG dataset. */
export const ellipsoids = {
  WGS84: { semiMajorMetres: 6_378_137, inverseFlattening: 298.257223563 },
  GRS80: { semiMajorMetres: 6_378_137, inverseFlattening: 298.257222101 },
  WGS72: { semiMajorMetres: 6_378_135, inverseFlattening: 298.26 },
  intl: { semiMajorMetres: 6_378_388, inverseFlattening: 297 },
} as const satisfies Readonly<Record<string, Ellipsoid>>

/** As a PROJ string has it. */
export const ellipsoidParameters = ({ semiMajorMetres, inverseFlattening }: Ellipsoid): string =>
  `+a=${semiMajorMetres} +rf=${inverseFlattening}`
