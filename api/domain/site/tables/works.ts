import {
  choice,
  choiceOrNothing,
  instant,
  instantOrNothing,
  number,
  numberOrNothing,
  reference,
  table,
  text,
} from '../column.ts'

export const stages = table({
  file: 'stages.csv',
  means: 'steps of construction that change load',
  key: ['id'],
  columns: {
    id: text('short name of the stage'),
    name: text('what is done'),
    startsAt: instant('first instant of the stage'),
    endsAt: instantOrNothing('last instant, empty while it lasts'),
    formationLevelMetres: numberOrNothing('level dug to by the end of the stage'),
  },
})

export const diary = table({
  file: 'diary.csv',
  means: 'works diary, visits and notes',
  key: ['at', 'text'],
  columns: {
    at: instant('when it began'),
    untilAt: instantOrNothing('when it ended'),
    kind: choice('kind of entry', ['works', 'visit', 'weather', 'damage', 'note']),
    text: text('what happened'),
    eastingMetres: numberOrNothing('where'),
    northingMetres: numberOrNothing('where'),
    author: text('who wrote it'),
  },
})

export const alignmentElements = table({
  file: 'alignment-elements.csv',
  means:
    'straights and circular arcs of alignments, as setting-out tables have them; an alignment without rows is the line drawn in works.geojson',
  optional: true,
  key: ['alignment', 'element'],
  columns: {
    alignment: text('id of a line of works.geojson'),
    element: number('1, 2, 3 … in the direction of travel', { min: 1, whole: true }),
    startChainageMetres: number('chainage at its start'),
    startEastingMetres: number('site grid easting of its start'),
    startNorthingMetres: number('northing there'),
    startBearingDegrees: number('direction of travel at its start, from grid north, clockwise', {
      min: 0,
      max: 360,
    }),
    lengthMetres: number('length along it', { min: 0.001, max: 100_000 }),
    radiusMetres: numberOrNothing('radius of an arc; empty for a straight', { min: 1, max: 100_000 }),
    hand: choiceOrNothing('side towards which an arc turns; empty for a straight', ['left', 'right']),
  },
})

export const structureLines = table({
  file: 'structure-lines.csv',
  means:
    'settlement points along straight lines through structures, such as a façade, from which tilt, angular distortion and deflection ratio are made',
  optional: true,
  key: ['line', 'order'],
  columns: {
    line: reference('instrument of kind structure-line', 'instruments'),
    order: number('1, 2, 3 … from one end to the other', { min: 1, whole: true }),
    point: reference('measuring point with a settlement', 'points'),
  },
})
