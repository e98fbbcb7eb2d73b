import { choice, instant, number, numberOrNothing, reference, table, text } from '../column.ts'

export const locations = table({
  file: 'locations.csv',
  means: 'holes and surface points, as surveyed',
  key: ['id'],
  columns: {
    id: text('name of the hole or point'),
    kind: choice('what it is', ['hole', 'surface', 'structure', 'mast']),
    eastingMetres: number('site grid easting of the collar'),
    northingMetres: number('site grid northing of the collar'),
    collarLevelMetres: number('level of the collar', { min: -500, max: 9000 }),
    azimuthDegrees: number('bearing of the hole from grid north, clockwise', { min: 0, max: 360 }),
    dipDegrees: number('angle below horizontal; 90 is straight down', { min: -90, max: 90 }),
    lengthMetres: number('length along the hole; 0 for a surface point', { min: 0, max: 2000 }),
    surveyedAt: instant('when its position was measured'),
    surveyedBy: text('who measured it'),
  },
})

export const strata = table({
  file: 'strata.csv',
  means: 'layers met in each hole',
  key: ['location', 'topLevelMetres'],
  columns: {
    location: reference('hole', 'locations'),
    topLevelMetres: number('level of the top of the layer'),
    baseLevelMetres: number('level of its base'),
    stratum: text('name of the layer'),
    unitWeightKnPerM3: number('bulk unit weight', { min: 8, max: 30 }),
    compressibilityM2PerKn: numberOrNothing('coefficient of volume compressibility m_v', { min: 0 }),
    consolidationM2PerYear: numberOrNothing('coefficient of consolidation c_v', { min: 0 }),
  },
})

export const holeSurveys = table({
  file: 'hole-surveys.csv',
  means: 'deviation surveys of holes, a row a station; a hole without rows is straight',
  optional: true,
  key: ['location', 'depthMetres'],
  columns: {
    location: reference('hole', 'locations'),
    depthMetres: number('distance along the hole from the collar', { min: 0 }),
    dipDegrees: number(
      'angle below horizontal, as in locations.csv: 90 is straight down; 90 less the inclination from the vertical',
      { min: -90, max: 90 },
    ),
    azimuthDegrees: number('bearing from grid north, clockwise', { min: 0, max: 360 }),
    surveyedAt: instant('when it was surveyed'),
    surveyedBy: text('who surveyed it'),
  },
})

export const spiralSurveys = table({
  file: 'spiral-surveys.csv',
  means:
    'spiral surveys of inclinometer casings, a row a station; a casing without rows has straight grooves; of several surveys the newest holds',
  optional: true,
  key: ['location', 'surveyedAt', 'depthMetres'],
  columns: {
    location: reference('hole with the casing', 'locations'),
    depthMetres: number('distance along the hole from the collar', { min: 0 }),
    spiralDegrees: number(
      'turn of the grooves there against those at the top, clockwise seen from above; counted on past 360',
      { min: -3600, max: 3600 },
    ),
    surveyedAt: instant('when it was surveyed; all stations of a survey have the same'),
    surveyedBy: text('who surveyed it'),
  },
})

export const controlPoints = table({
  file: 'control-points.csv',
  means:
    "points that tie the site's own grid to the CRS of site.csv; with rows here, eastings and northings of all other tables are on that own grid",
  optional: true,
  key: ['id'],
  columns: {
    id: text('name of the control point'),
    localEastingMetres: number("easting on the site's own grid"),
    localNorthingMetres: number('northing there'),
    crsEastingMetres: numberOrNothing('easting in the CRS of site.csv'),
    crsNorthingMetres: numberOrNothing('northing there'),
    longitudeDegrees: numberOrNothing('instead of them, longitude on WGS 84', { min: -180, max: 180 }),
    latitudeDegrees: numberOrNothing('latitude on WGS 84', { min: -90, max: 90 }),
    surveyedAt: instant('when it was measured'),
    surveyedBy: text('who measured it'),
  },
})
