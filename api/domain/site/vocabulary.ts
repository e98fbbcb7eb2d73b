/** The closed lists of the site model, in the trade's own words (ISO 18674, AGS). */

export const instrumentKinds = [
  'piezometer',
  'standpipe',
  'extensometer',
  'in-place-inclinometer',
  'settlement-point',
  'tiltmeter',
  'crack-meter',
  'strut-load',
  'rain-gauge',
  'barometer',
  'air-temperature',
  'tide-gauge',
  'logger-battery',
  'traversed-inclinometer',
  'tilt-beam',
  'settlement-cell',
  'structure-line',
] as const
export type InstrumentKind = (typeof instrumentKinds)[number]

/** What a series of engineering values measures. */
export const measures = [
  'pore-pressure',
  'water-level',
  'temperature',
  'displacement',
  'inclination-a',
  'inclination-b',
  'deflection',
  'settlement',
  'tilt',
  'opening',
  'strain',
  'force',
  'rainfall',
  'barometric-pressure',
  'tide-level',
  'battery-voltage',
  'relative-displacement',
  'displacement-east',
  'displacement-north',
  'face-a0',
  'face-a180',
  'face-b0',
  'face-b180',
  'checksum-a',
  'checksum-b',
  'deviation-a',
  'deviation-b',
  'deflection-b',
  'differential-settlement',
  'relative-settlement',
  'shear',
  'step',
  'resultant',
  'thermal-force',
  'force-less-thermal',
  'hydraulic-gradient',
  'pore-pressure-ratio',
  'effective-stress',
  'angular-distortion',
  'deflection-ratio',
  'stud-length-ab',
  'stud-length-ac',
  'stud-length-bc',
  'liquid-pressure',
  'reservoir-drop',
] as const
export type Measure = (typeof measures)[number]

export const worksKinds = [
  'boundary',
  'excavation',
  'wall',
  'tunnel',
  'building',
  'service',
  'dock',
  'shore',
  'obstruction',
] as const
export type WorksKind = (typeof worksKinds)[number]

/** The closed set of reduction steps. Each is one file in `reduction/steps/`. */
export const stepKinds = [
  'period-to-frequency',
  'frequency-squared',
  'linear',
  'polynomial',
  'steinhart-hart',
  'callendar-van-dusen',
  'current-span',
  'voltage-span',
  'ratio-bridge',
  'thermal',
  'barometric',
  'zero',
  'gauge-length-sine',
  'unit',
  'beta',
  'wire-strain',
  'strain-temperature',
  'quarter-bridge',
  'full-bridge',
  'potentiometer',
  'shunt',
  'rain-counter',
  'sine-to-tilt',
  'tilt-to-sine',
] as const
export type StepKind = (typeof stepKinds)[number]

export const spreadingFactors = [7, 8, 9, 10, 11, 12] as const
export type SpreadingFactor = (typeof spreadingFactors)[number]

/** What a person finds about a stretch of readings. None of them removes a reading or lowers a level. */
export const verdicts = ['accepted', 'doubtful', 'rejected'] as const
export type VerdictKind = (typeof verdicts)[number]

/** What a trigger level may watch of its series. */
export const watchedOfSeries = ['value', 'change', 'rate', 'difference', 'silence', 'combination'] as const
export type WatchedOfSeries = (typeof watchedOfSeries)[number]
