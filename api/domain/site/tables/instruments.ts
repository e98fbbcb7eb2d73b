import {
  choice,
  choiceOrNothing,
  flag,
  instant,
  instantOrNothing,
  maybeAbsent,
  numberOrNothing,
  reference,
  referenceOrNothing,
  table,
  text,
  textOrNothing,
} from '../column.ts'
import { instrumentKinds } from '../vocabulary.ts'

export const instruments = table({
  file: 'instruments.csv',
  means: 'instruments as installed',
  key: ['id'],
  columns: {
    id: text('name used on the works'),
    kind: choice('kind of instrument', instrumentKinds),
    location: reference('where it is', 'locations'),
    axisBearingDegrees: numberOrNothing('bearing of the positive A axis from grid north', {
      min: 0,
      max: 360,
    }),
    positiveMeans: text('sign convention, in words'),
    fixedEnd: choiceOrNothing('end assumed still when movements are added up', [
      'toe',
      'head',
      'deepest-anchor',
      'none',
      'surveyed-head',
    ]),
    installedAt: instant('when it was installed'),
    retiredAt: instantOrNothing('when it was taken out of use'),
    replaces: referenceOrNothing('instrument that it follows on from', 'instruments'),
    critical: flag('whether silence of this instrument must itself be noticed'),
    note: textOrNothing('anything a reader must know'),
    anchorPositive: choiceOrNothing(
      'extensometer: whether a positive reading means that head and anchor move apart or come closer together; empty: no strain and no settlement of anchors is made',
      ['apart', 'together'],
    ),
    surveyedPoint: referenceOrNothing(
      'measuring point whose surveyed movement is that of the head or reservoir',
      'points',
    ),
    surveyMaximumAgeDays: numberOrNothing(
      'how long a survey of that point may stand for the next; structure line: how far apart in time the readings of one round may lie',
      {
        min: 0,
      },
    ),
    positiveB: choiceOrNothing(
      'inclinometer: where the positive B axis lies, 90 degrees from the positive A axis seen from above; clockwise when empty',
      ['clockwise', 'counter-clockwise'],
    ),
    stillBelowMetres: numberOrNothing(
      'traversed inclinometer: depth below which the casing is taken to stand still, so that faults of a survey can be told',
      { min: 0 },
    ),
    thermalFactorKnPerKelvin: numberOrNothing(
      'strut: force gained for each kelvin that it is warmer; empty: thermal share not known',
    ),
    thermalReferenceDegC: numberOrNothing('strut: temperature at which the thermal share is nil'),
    totalStressFrom: choiceOrNothing(
      'piezometer: where the total vertical stress at its tips comes from; strata: from those of its hole up to its collar, no ground dug away or heaped on top; empty: not known',
      ['strata'],
    ),
    structureHeightMetres: maybeAbsent(
      numberOrNothing(
        'structure line: height of the structure above its foundation; empty: no damage guidance',
        { min: 0.1, max: 500 },
      ),
    ),
    structureStiffnessRatio: maybeAbsent(
      numberOrNothing(
        "structure line: Young's modulus over shear modulus of the structure as a beam; empty means 2.6",
        { min: 0.1, max: 100 },
      ),
    ),
    studZeroAbMm: maybeAbsent(
      numberOrNothing('crack meter of three studs: length AB at zero; A and B stand on one side', {
        min: 1,
      }),
    ),
    studZeroAcMm: maybeAbsent(numberOrNothing('length AC at zero; C stands across the crack', { min: 1 })),
    studZeroBcMm: maybeAbsent(numberOrNothing('length BC at zero', { min: 1 })),
    liquidDensityKgPerM3: maybeAbsent(
      numberOrNothing(
        'settlement cell: density of its liquid at the zero temperature of each cell; empty: water',
        { min: 500, max: 2000 },
      ),
    ),
    liquidExpansionPerKelvin: maybeAbsent(
      numberOrNothing('settlement cell: cubic expansion of that liquid; needed with its density', {
        min: 0,
        max: 0.01,
      }),
    ),
  },
})
