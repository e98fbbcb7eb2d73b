import {
  choiceOrNothing,
  instant,
  number,
  numberOrNothing,
  reference,
  table,
  text,
  textOrNothing,
} from '../column.ts'

export const aquifers = table({
  file: 'aquifers.csv',
  means: 'what the design takes of the flow of water in a layer, and the line that bounds it',
  optional: true,
  key: ['stratum'],
  columns: {
    stratum: text('name of the layer, as in strata.csv'),
    transmissivityM2PerS: number('transmissivity T, conductivity times thickness', { min: 1e-9, max: 10 }),
    storativity: number('storativity S of the confined layer, without unit', { min: 1e-9, max: 1 }),
    boundaryLine: textOrNothing(
      'id of a straight line of works.geojson that bounds the layer, taken on without end; empty: no boundary',
    ),
    boundaryKind: choiceOrNothing(
      'what the line does: a river or dock holds the level, a wall or fault lets nothing through',
      ['held-level', 'no-flow'],
    ),
    source: text('where the figures come from'),
    author: text('who entered them'),
  },
})

export const wells = table({
  file: 'wells.csv',
  means: 'pumped wells, or groups of wells that act at a distance as one',
  optional: true,
  key: ['id'],
  columns: {
    id: text('name of the well'),
    eastingMetres: number('site grid easting'),
    northingMetres: number('site grid northing'),
    radiusMetres: number('radius of the borehole, or of what a group is taken as', {
      min: 0.01,
      max: 100,
    }),
    stratum: text('layer that it draws from, as in strata.csv'),
    screenTopLevelMetres: numberOrNothing('level of the top of its screen'),
    screenBaseLevelMetres: numberOrNothing('level of the base of its screen'),
    note: textOrNothing('anything a reader must know'),
  },
})

export const pumpingRates = table({
  file: 'pumping-rates.csv',
  means: 'rates of pumped wells, each from an instant on until the next',
  optional: true,
  key: ['well', 'fromAt'],
  columns: {
    well: reference('well', 'wells'),
    fromAt: instant('first instant of this rate'),
    rateLitresPerSecond: number('water taken out; 0 ends pumping, negative where water is put in', {
      min: -10_000,
      max: 10_000,
    }),
    author: text('who entered it'),
  },
})
