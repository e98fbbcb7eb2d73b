import { readingChecks } from '../flags/reading-checks.ts'
import { boardKinds } from '../meeting/meeting.ts'
import { actionStandings } from '../meeting/minute.ts'
import { causes } from '../review/cause.ts'
import { oddities } from '../review/oddities.ts'
import {
  choice,
  choiceOrNothing,
  flag,
  instant,
  instantOrNothing,
  maybeAbsent,
  number,
  numberOrNothing,
  type RowOf,
  reference,
  referenceOrNothing,
  table,
  text,
  textOrNothing,
} from './column.ts'
import { verdictCauses, verdictConfidences, verdictEffects, verdictReviewOutcomes } from './verdict-words.ts'
import { instrumentKinds, measures, stepKinds, verdicts, watchedOfSeries } from './vocabulary.ts'

/**
 * Every table of a site folder: file name, key, headings, meaning, unit and range. This is the
 * specification of the folder format; `sample-site/` is one such folder.
 * Levels are metres on the site's vertical datum, up positive. Eastings and northings are site grid metres.
 */
export const siteTables = {
  stages: table({
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
  }),
  locations: table({
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
  }),
  strata: table({
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
  }),
  instruments: table({
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
  }),
  points: table({
    file: 'points.csv',
    means: 'measuring points: tips, anchors, segments, gauges, marks',
    key: ['id'],
    columns: {
      id: text('name of the measuring point'),
      instrument: reference('instrument it belongs to', 'instruments'),
      depthMetres: number('distance along the hole, or a chain of beams, from its start; 0 at the surface', {
        min: 0,
      }),
      gaugeLengthMetres: numberOrNothing('length over which it measures, centred on depthMetres', {
        min: 0,
      }),
      intakeTopLevelMetres: numberOrNothing('level of the top of the intake zone'),
      intakeBaseLevelMetres: numberOrNothing('level of its base'),
      stratum: textOrNothing('layer it measures in'),
      retiredAt: instantOrNothing('when it was taken out of use'),
      replaces: referenceOrNothing('measuring point that it follows on from', 'points'),
      zeroDeviationAMm: numberOrNothing('traversed inclinometer: deviation along A in its zero survey'),
      zeroDeviationBMm: numberOrNothing('the same along B'),
      zeroPressureKpa: maybeAbsent(
        numberOrNothing('settlement cell: pressure of its liquid at zero, with the reservoir then full', {
          min: 0,
        }),
      ),
      zeroTemperatureDegC: maybeAbsent(
        numberOrNothing('settlement cell: temperature of its liquid then', { min: -40, max: 60 }),
      ),
    },
  }),
  sensors: table({
    file: 'sensors.csv',
    means: 'transducers; each gives one series of engineering values',
    key: ['id'],
    columns: {
      id: text('point/measure, for example PZ-01A/pore-pressure'),
      point: reference('measuring point', 'points'),
      measure: choice('what its series measures', measures),
      serial: textOrNothing('serial number'),
      rawUnit: text('unit of the raw reading: us, Hz, ohm, mA, mV/V, V, count, mm, m'),
      unit: text('engineering unit: kPa, degC, mm, deg, kN, m, V'),
      rangeLow: numberOrNothing('lowest engineering value it can measure'),
      rangeHigh: numberOrNothing('highest engineering value it can measure'),
      decimals: number('decimals kept when published, finer than the uncertainty', {
        min: 0,
        max: 6,
        whole: true,
      }),
      temperatureSensor: referenceOrNothing('companion for its thermal term', 'sensors'),
      barometerSensor: referenceOrNothing('companion for its barometric term', 'sensors'),
      intervalMinutes: number('planned minutes between readings', { min: 0.1 }),
      lateAfterMinutes: number('minutes without a reading after which it has no current data', {
        min: 0.1,
      }),
      venting: maybeAbsent(
        choiceOrNothing('whether a pressure sensor breathes: vented to the air, or sealed from it', [
          'vented',
          'sealed',
        ]),
      ),
      rawResolution: maybeAbsent(
        numberOrNothing('smallest step of the raw reading, raw unit; empty: not known', { min: 0 }),
      ),
    },
  }),
  loggers: table({
    file: 'loggers.csv',
    means: 'loggers, and the crews and benches that read by hand',
    key: ['id'],
    columns: {
      id: text('name, for example LG-01'),
      serial: text('serial number as it stands in files'),
      kind: choice('what it is', ['logger', 'survey', 'manual']),
      location: referenceOrNothing('where it is', 'locations'),
      antennaHeightMetres: numberOrNothing('antenna above its location', { min: 0 }),
      channels: numberOrNothing('number of channels', { min: 1, whole: true }),
      intervalMinutes: numberOrNothing('planned minutes between readings', { min: 0.1 }),
      cells: numberOrNothing('number of battery cells', { min: 1, max: 8, whole: true }),
      clockZone: text('zone its clock is set to: UTC or an IANA zone name'),
    },
  }),
  gateways: table({
    file: 'gateways.csv',
    means: 'radio gateways',
    key: ['id'],
    columns: {
      id: text('name'),
      location: reference('mast', 'locations'),
      antennaHeightMetres: number('antenna above ground', { min: 0, max: 300 }),
    },
  }),
  wiring: table({
    file: 'wiring.csv',
    means: 'which logger channel reads which sensor, from when',
    key: ['logger', 'channel', 'fromAt'],
    columns: {
      logger: reference('logger', 'loggers'),
      channel: text('channel name on that logger'),
      sensor: reference('sensor', 'sensors'),
      fromAt: instant('first instant of this wiring'),
      untilAt: instantOrNothing('first instant no longer valid, empty while it lasts'),
      reason: textOrNothing('why it was wired or changed'),
    },
  }),
  calibrations: table({
    file: 'calibrations.csv',
    means: 'dated versions of how a sensor is reduced',
    key: ['id'],
    columns: {
      id: text('name, for example CC-118/2'),
      sensor: reference('sensor', 'sensors'),
      version: number('1, 2, 3 …', { min: 1, whole: true }),
      validFrom: instant('first instant that it applies to'),
      certificate: textOrNothing('certificate number'),
      calibratedAt: instantOrNothing('date of the certificate'),
      dueAt: instantOrNothing('when the next calibration is due'),
      standardUncertainty: number('standard uncertainty of the value, engineering unit', { min: 0 }),
      author: text('who entered it'),
      reason: text('why this version exists'),
    },
  }),
  calibrationSteps: table({
    file: 'calibration-steps.csv',
    means: 'the chain of steps of each calibration',
    key: ['calibration', 'step'],
    columns: {
      calibration: reference('calibration', 'calibrations'),
      step: number('1, 2, 3 … in order', { min: 1, whole: true }),
      kind: choice('step kind', stepKinds),
      parameters: textOrNothing('name=value pairs separated by semicolons; empty where the kind has none'),
    },
  }),
  triggerLevels: table({
    file: 'trigger-levels.csv',
    means: 'agreed values that start a response',
    key: ['id'],
    columns: {
      id: text('name'),
      series: text('series it watches, point/measure; combination: series beside which it is shown'),
      level: number('1 for the first, 2 for the next …', { min: 1, max: 6, whole: true }),
      direction: choice('which way is towards the level', ['above', 'below', 'either']),
      value: number(
        'the level, in the unit of the series (rate: that a day; silence: minutes; combination: how many of its levels)',
      ),
      validFrom: instant('first instant that it applies to'),
      validUntil: instantOrNothing('first instant that it no longer applies to'),
      action: text('what is done when it is reached'),
      owner: text('who does it'),
      withinMinutes: number('time allowed', { min: 1 }),
      reason: text('where the value comes from'),
      author: text('who proposed it'),
      approver: text('second person who approved it'),
      watches: maybeAbsent(
        choiceOrNothing('what of the series it watches; empty: the value', watchedOfSeries),
      ),
      against: maybeAbsent(
        textOrNothing(
          'difference: series that is subtracted; combination: ids of levels, separated by semicolons',
        ),
      ),
      needed: maybeAbsent(
        numberOrNothing('combination: how many of them must be reached at once; empty: all', {
          min: 1,
          whole: true,
        }),
      ),
      windowMinutes: maybeAbsent(
        numberOrNothing('rate: time over which it is taken; difference: greatest age of the other reading', {
          min: 1,
        }),
      ),
      changeSince: maybeAbsent(
        instantOrNothing('change: instant from whose reading it is counted, the last one at or before it'),
      ),
      stage: maybeAbsent(
        referenceOrNothing('stage during which alone it applies; empty: whatever the works do', 'stages'),
      ),
      holdReadings: maybeAbsent(
        numberOrNothing('readings in a row that must have reached it, or left it, to count; empty: 1', {
          min: 1,
          whole: true,
        }),
      ),
      holdMinutes: maybeAbsent(
        numberOrNothing(
          'time from the first to the last of them that must have passed as well; silence: for how long readings must come again to end it; empty: 0',
          { min: 0 },
        ),
      ),
      hysteresisShare: maybeAbsent(
        numberOrNothing(
          'how far a value must fall behind the level to leave it, as a share of the level; empty: 0',
          { min: 0, max: 0.9 },
        ),
      ),
      longestGapMinutes: maybeAbsent(
        numberOrNothing('readings further apart do not count together; empty: any do', { min: 1 }),
      ),
    },
  }),
  holdPoints: table({
    file: 'hold-points.csv',
    means: 'conditions that must be met before a stage may begin; not trigger levels',
    key: ['id'],
    columns: {
      id: text('name'),
      stage: reference('stage that may not begin before', 'stages'),
      series: text('series that must meet it'),
      direction: choice('the condition', ['at-most', 'at-least']),
      value: number('in the unit of the series'),
      statistic: choice('of what', ['last', 'day-mean', 'week-mean']),
      reason: text('why'),
    },
  }),
  coverageTests: table({
    file: 'coverage-tests.csv',
    means: 'radio coverage tests, one row a spreading factor',
    key: ['test', 'spreadingFactor'],
    columns: {
      test: text('test number'),
      at: instant('when'),
      eastingMetres: number('where'),
      northingMetres: number('where'),
      accuracyMetres: number('accuracy of the position', { min: 0 }),
      mode: choice('whether results were looked up at once', ['with-internet', 'without-internet']),
      logger: referenceOrNothing('logger tested, if one stood there', 'loggers'),
      spreadingFactor: number('7 to 12', { min: 7, max: 12, whole: true }),
      sent: number('packets sent', { min: 0, whole: true }),
      received: number('packets received', { min: 0, whole: true }),
      signalDbm: numberOrNothing('mean received signal strength', { min: -160, max: 0 }),
      author: text('who tested'),
      gateway: referenceOrNothing('gateway that heard it best, empty where nobody looked', 'gateways'),
    },
  }),
  diary: table({
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
  }),
  checkLimits: table({
    file: 'check-limits.csv',
    means: 'limits of the automatic checks of readings, which mark and never remove',
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      series: textOrNothing('series that they are for; empty: every sensor of the measure'),
      measure: choiceOrNothing('measure that they are for; empty where a series is named', measures),
      check: choice('what is checked', readingChecks),
      suspectBelow: numberOrNothing(
        'below it a reading is suspect; unit of the series (range), degC (temperature), seconds (clock)',
      ),
      suspectAbove: numberOrNothing(
        'above it a reading is suspect; unit of the series (range, spike, duplicate), that an hour (rate-of-change), hours (stuck-value, at most 24), minutes (gap, at most 1440), seconds (clock), degC (temperature)',
      ),
      failBelow: numberOrNothing('below it the check fails'),
      failAbove: numberOrNothing('above it the check fails'),
      against: textOrNothing('duplicate: the series beside it'),
      reason: text('where the limits come from'),
      author: text('who set them'),
      validFrom: maybeAbsent(
        instantOrNothing('first instant that they apply to; empty: every reading until other limits begin'),
      ),
    },
  }),
  verdicts: table({
    file: 'verdicts.csv',
    means:
      "what a person found about a stretch of readings; they stay drawn and held against levels, and the automatic checks' marks stay beside it",
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      series: text('series that it is about, point/measure'),
      fromAt: instant('first instant that it is about'),
      untilAt: instantOrNothing('first instant that it is no longer about, empty while it lasts'),
      verdict: choice('what was found', verdicts),
      reason: text('evidence for it'),
      alternatives: text('other explanations that were considered, and why they were set aside'),
      author: text('who found it'),
      at: instant('when it was found'),
      cause: maybeAbsent(choiceOrNothing('what it is laid on', verdictCauses)),
      confidence: maybeAbsent(
        choiceOrNothing(
          'how sure its author is of the cause; `confidenceMeans` gives ranges',
          verdictConfidences,
        ),
      ),
      effects: maybeAbsent(
        textOrNothing(`what follows from it, with semicolons between: ${verdictEffects.join('; ')}`),
      ),
      oddity: maybeAbsent(choiceOrNothing('what about the readings was weighed', oddities)),
      evidenceFromAt: maybeAbsent(instantOrNothing('first instant of the readings that were weighed')),
      evidenceUntilAt: maybeAbsent(instantOrNothing('instant at which the evidence was known')),
      rulesVersion: maybeAbsent(textOrNothing('name of the rules and weights by which it was weighed')),
    },
  }),
  verdictEvidence: table({
    file: 'verdict-evidence.csv',
    means:
      'the evidence as it stood when a verdict was found; the weights of one cause add up to what it had',
    optional: true,
    key: ['verdict', 'line'],
    columns: {
      verdict: reference('verdict that it was weighed for', 'verdicts'),
      line: number('place in the table, from 1', { min: 1, whole: true }),
      cause: choice('what it speaks for or against', causes),
      rule: text('rule that found it, `start` for what the ground is given to begin with'),
      stands: choice('how it stands to the cause', ['for', 'against', 'missing']),
      decibans: number('its weight, ten times the logarithm of the odds'),
      sentence: text('what was found'),
      figure: numberOrNothing('the figure that it rests on'),
      figureLow: numberOrNothing('lower end of its 95 % interval'),
      figureHigh: numberOrNothing('upper end'),
      figureUnit: textOrNothing('unit of the three'),
    },
  }),
  verdictReviews: table({
    file: 'verdict-reviews.csv',
    means:
      'verdicts that a person looked at again because later data speak against them; the verdict holds until it is taken back or overridden',
    optional: true,
    key: ['verdict', 'at'],
    columns: {
      verdict: reference('verdict that was looked at again', 'verdicts'),
      at: instant('when'),
      outcome: choice('what came of it', verdictReviewOutcomes),
      found: text('what in the data spoke against it'),
      reason: text('why it is reopened, or why it is upheld'),
      author: text('who says so'),
    },
  }),
  verdictWithdrawals: table({
    file: 'verdict-withdrawals.csv',
    means:
      'verdicts that a person took back; a verdict that is taken back stays on record and holds no longer',
    optional: true,
    key: ['verdict'],
    columns: {
      verdict: reference('verdict that is taken back', 'verdicts'),
      at: instant('when it was taken back'),
      author: text('who took it back'),
      reason: text('why'),
    },
  }),
  controlPoints: table({
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
  }),
  holeSurveys: table({
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
  }),
  zeroReadings: table({
    file: 'zero-readings.csv',
    means: 'repeated readings taken at zero conditions, from which the zero of a calibration is known',
    optional: true,
    key: ['calibration', 'at'],
    columns: {
      calibration: reference('calibration whose zero they are', 'calibrations'),
      at: instant('when it was read'),
      raw: number('reading, in the raw unit of the sensor'),
      temperatureDegC: numberOrNothing('temperature of the sensor then; needed by a thermal term', {
        min: -100,
        max: 200,
      }),
      barometerKpa: numberOrNothing(
        'station pressure at the site barometer then; needed by a barometric term',
        {
          min: 30,
          max: 120,
        },
      ),
      author: text('who read it'),
    },
  }),
  joins: table({
    file: 'joins.csv',
    means:
      'series that carry on from others, with the offset that puts them on one level; no series is changed by it',
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      series: text('series that carries on, point/measure'),
      follows: text('series that it carries on from'),
      at: instant('first instant at which it stands for the other'),
      offset: number('added to its values to stand on the level of the other, unit of both'),
      standardUncertainty: number('standard uncertainty of the offset, unit of both', { min: 0 }),
      author: text('who determined it'),
      reason: text('how, and why'),
    },
  }),
  alignmentElements: table({
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
  }),
  structureLines: table({
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
  }),
  predictions: table({
    file: 'predictions.csv',
    means: 'what the design expects of an instrument by the end of a works stage; never a trigger level',
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      instrument: reference('instrument', 'instruments'),
      measure: choice('what is predicted, in the unit and with the sign of its series', measures),
      stage: reference('stage at whose end it is expected', 'stages'),
      depthMetres: numberOrNothing(
        'depth down the hole that it is for; empty: the instrument as a whole, such as a settlement or the greatest deflection',
        { min: 0 },
      ),
      low: number('least that is expected'),
      high: number('most that is expected'),
      source: text('where it comes from'),
      author: text('who entered it'),
      validFrom: instant('since when this prediction stands; a later one takes its place'),
    },
  }),
  spiralSurveys: table({
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
  }),
  aquifers: table({
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
  }),
  wells: table({
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
  }),
  pumpingRates: table({
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
  }),
  approvals: table({
    file: 'approvals.csv',
    means:
      'stretches of readings that somebody has looked through and stands for; all others are provisional',
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      instrument: reference('instrument whose readings are approved', 'instruments'),
      fromAt: instant('first instant'),
      untilAt: instant('first instant no longer approved'),
      at: instant('when; a reading that arrived later is provisional'),
      approver: text('who approved'),
      statement: text('what was looked at'),
      recipe: textOrNothing(
        'written by the server: what the values were made by then, so that a later calibration makes them provisional again; empty: not compared',
      ),
    },
  }),
  approvalWithdrawals: table({
    file: 'approval-withdrawals.csv',
    means: 'approvals that somebody took back; the readings are provisional again',
    optional: true,
    key: ['approval'],
    columns: {
      approval: reference('approval that is taken back', 'approvals'),
      at: instant('when it was taken back'),
      author: text('who took it back'),
      reason: text('why'),
    },
  }),
  contacts: table({
    file: 'contacts.csv',
    means: 'people who are told, and how each is reached; never part of what viewers get',
    optional: true,
    key: ['id'],
    columns: {
      id: text('short name, used once'),
      name: text('name of the person, or of the room that answers'),
      email: textOrNothing('address for mail'),
      account: textOrNothing(
        'sign-in name of the account here; messages go to the devices that asked for them',
      ),
      webhooks: textOrNothing('names of webhooks that reach this person, separated by semicolons'),
      note: textOrNothing('anything that whoever reads the roster must know'),
    },
  }),
  dutyShifts: table({
    file: 'duty-shifts.csv',
    means: 'who is on for a duty, by weekday and time of day on the clocks of a zone',
    optional: true,
    key: ['id'],
    columns: {
      id: text('short name of the shift'),
      duty: text('what the person is on for, in the words of the owner of a trigger level'),
      contact: reference('who', 'contacts'),
      order: number('1 is told first, 2 and further after that', { min: 1, max: 9, whole: true }),
      zone: text('zone of its times and dates: UTC or an IANA zone name'),
      weekdays: text('days on which it begins: mon-fri, or sat;sun'),
      fromTime: text('time of day at which it begins, 07:00'),
      untilTime: text(
        'time of day at which it ends, on the next day where that is not later; the same as fromTime: a whole day',
      ),
      onHolidays: choice('whether it begins on a holiday too, then not, or then only', [
        'as-usual',
        'not',
        'only',
      ]),
      validFrom: instant('first instant of it'),
      validUntil: instantOrNothing('first instant that it no longer holds, empty while it lasts'),
    },
  }),
  holidays: table({
    file: 'holidays.csv',
    means: 'days on which shifts differ',
    optional: true,
    key: ['date', 'zone'],
    columns: {
      date: text('date on the calendar of the shift, 2027-12-25'),
      name: text('what the day is called'),
      zone: textOrNothing('only for shifts of this zone; empty: for all'),
    },
  }),
  escalations: table({
    file: 'escalations.csv',
    means:
      'who is told when a duty is needed and nobody could be told, or nobody answers; the last step is repeated',
    optional: true,
    key: ['duty', 'step'],
    columns: {
      duty: text('duty that is needed, as in duty-shifts.csv'),
      step: number('1 is done first', { min: 1, max: 20, whole: true }),
      toDuty: textOrNothing('duty that is told; empty: the same one'),
      toOrder: numberOrNothing('order of the person told; empty: everyone on then', {
        min: 1,
        max: 9,
        whole: true,
      }),
      undeliveredMinutes: number('minutes without anything delivered after which the next step is taken', {
        min: 1,
        max: 1440,
      }),
      unacknowledgedMinutes: number(
        'minutes without acknowledgement after which the next step is taken; of the last step, after which it is repeated',
        { min: 1, max: 1440 },
      ),
    },
  }),
  suppressions: table({
    file: 'suppressions.csv',
    means: 'what is not sent for a stated reason and time; alerts are raised and shown all the same',
    optional: true,
    key: ['id'],
    columns: {
      id: text('name'),
      covers: choice('what is held back: alerts of one level, or of all of a series, instrument or logger', [
        'level',
        'series',
        'instrument',
        'logger',
      ]),
      name: text('id of that level, series, instrument or logger'),
      fromAt: instant('first instant of it'),
      untilAt: instant('first instant at which sending goes on; at most 14 days later'),
      reason: text('why nobody is to be told'),
      author: text('who decided it'),
    },
  }),
  suppressionEnds: table({
    file: 'suppression-ends.csv',
    means: 'suppressions ended before their time',
    optional: true,
    key: ['suppression'],
    columns: {
      suppression: reference('the suppression', 'suppressions'),
      at: instant('when it was ended'),
      author: text('who ended it'),
      reason: text('why'),
    },
  }),
  meetings: table({
    file: 'meetings.csv',
    means: 'meetings, each over the data that had been received up to its cut-off',
    optional: true,
    key: ['id'],
    columns: {
      id: number('1, 2, 3 … of the site', { min: 1, whole: true }),
      title: text('what the meeting is called in the list'),
      heldAt: instant('when it is or was held'),
      cutOffAt: instant('nothing received after this instant is shown in it'),
      previous: numberOrNothing('meeting whose data the change is counted from; empty: none', {
        min: 1,
        whole: true,
      }),
      frozenSet: maybeAbsent(
        textOrNothing(
          'written by the server: its frozen data set; empty, or not of this server: not frozen yet',
        ),
      ),
      author: text('who made it'),
      at: instant('when it was made'),
    },
  }),
  boards: table({
    file: 'boards.csv',
    means: 'screens of each meeting in their order; those of its highest version are shown',
    optional: true,
    key: ['meeting', 'version', 'board'],
    columns: {
      meeting: number('meeting, as in meetings.csv', { min: 1, whole: true }),
      version: number('1, 2, 3 … of its boards', { min: 1, whole: true }),
      board: number('1, 2, 3 … in order', { min: 1, max: 60, whole: true }),
      kind: choice('what it shows', boardKinds),
      title: text('what stands above it'),
      address: text('the view, as the query part of an address of this page, without ?'),
      seconds: number('how long it stands while boards follow one another by themselves', {
        min: 5,
        max: 600,
        whole: true,
      }),
      author: text('who put this version together'),
      at: instant('when'),
    },
  }),
  minutes: table({
    file: 'minutes.csv',
    means: 'what meetings wrote down: statements, and actions that somebody owns until a day',
    optional: true,
    key: ['id'],
    columns: {
      id: number('1, 2, 3 … of the site', { min: 1, whole: true }),
      meeting: number('meeting, as in meetings.csv', { min: 1, whole: true }),
      kind: choice('a statement, or something to be done', ['note', 'action']),
      text: text('what was said or agreed'),
      places: textOrNothing(
        'measuring points and instruments that it is about, separated by semicolons; empty: the site',
      ),
      owner: textOrNothing('action: who does it; empty for a note'),
      dueOn: textOrNothing('action: by which day of the site, 2027-09-14; empty for a note'),
      author: text('who wrote it down'),
      at: instant('when'),
    },
  }),
  actionEntries: table({
    file: 'action-entries.csv',
    means: 'what was said of actions after the meeting; the last one tells how an action stands',
    optional: true,
    key: ['minute', 'entry'],
    columns: {
      minute: number('action, as in minutes.csv', { min: 1, whole: true }),
      entry: number('1, 2, 3 … in order', { min: 1, whole: true }),
      standing: choice('how it stands since', actionStandings),
      note: text('what was done, or why it is not done'),
      author: text('who said so'),
      at: instant('when'),
    },
  }),
} as const

export type SiteTables = typeof siteTables
export type TableName = keyof SiteTables
export type Row<N extends TableName> = RowOf<SiteTables[N]['columns']>

export type Stage = Row<'stages'>
export type Location = Row<'locations'>
export type StratumLayer = Row<'strata'>
export type Instrument = Row<'instruments'>
export type MeasuringPoint = Row<'points'>
export type Sensor = Row<'sensors'>
export type Logger = Row<'loggers'>
export type Gateway = Row<'gateways'>
export type Wiring = Row<'wiring'>
export type CalibrationRow = Row<'calibrations'>
export type CalibrationStepRow = Row<'calibrationSteps'>
export type TriggerLevel = Row<'triggerLevels'>
export type HoldPoint = Row<'holdPoints'>
export type CoverageTestRow = Row<'coverageTests'>
export type DiaryEntry = Row<'diary'>
export type CheckLimit = Row<'checkLimits'>
export type Verdict = Row<'verdicts'>
export type Prediction = Row<'predictions'>
export type VerdictEvidence = Row<'verdictEvidence'>
export type VerdictReview = Row<'verdictReviews'>
export type VerdictWithdrawal = Row<'verdictWithdrawals'>
export type ControlPoint = Row<'controlPoints'>
export type HoleSurveyRow = Row<'holeSurveys'>
export type SpiralSurveyRow = Row<'spiralSurveys'>
export type ZeroReading = Row<'zeroReadings'>
export type SeriesJoin = Row<'joins'>
export type AlignmentElementRow = Row<'alignmentElements'>
export type StructureLineRow = Row<'structureLines'>
export type AquiferRow = Row<'aquifers'>
export type WellRow = Row<'wells'>
export type PumpingRateRow = Row<'pumpingRates'>
export type Approval = Row<'approvals'>
export type ApprovalWithdrawal = Row<'approvalWithdrawals'>
export type Contact = Row<'contacts'>
export type DutyShift = Row<'dutyShifts'>
export type Holiday = Row<'holidays'>
export type EscalationRow = Row<'escalations'>
export type Suppression = Row<'suppressions'>
export type SuppressionEnd = Row<'suppressionEnds'>
export type MeetingRow = Row<'meetings'>
export type BoardRow = Row<'boards'>
export type MinuteRow = Row<'minutes'>
export type ActionEntryRow = Row<'actionEntries'>
