import { airPressure } from './air-pressure/table.ts'
import { alertDelivery } from './alert-delivery/table.ts'
import { alignments } from './alignments/table.ts'
import { barometricEfficiency } from './barometric-efficiency/table.ts'
import { baselineAndUncertainty } from './baseline-and-uncertainty/table.ts'
import { batteries } from './batteries/table.ts'
import { comparisons } from './comparisons/table.ts'
import { coordinates } from './coordinates/table.ts'
import { extensometers } from './extensometers/table.ts'
import { groundSurfaces } from './ground-surfaces/table.ts'
import { holes } from './holes/table.ts'
import { hydrostatics } from './hydrostatics/table.ts'
import { inclinometers } from './inclinometers/table.ts'
import { levelling } from './levelling/table.ts'
import { levelsAndDistortion } from './levels-and-distortion/table.ts'
import { networkPlan } from './network-plan/table.ts'
import { oddReadings } from './odd-readings/table.ts'
import type { PublishedTable } from './published-row.ts'
import { radioLinks } from './radio-links/table.ts'
import { settlementInTime } from './settlement-in-time/table.ts'
import { signingIn } from './signing-in/table.ts'
import { slopes } from './slopes/table.ts'
import { statistics } from './statistics/table.ts'
import { temperature } from './temperature/table.ts'
import { tiltAndCracks } from './tilt-and-cracks/table.ts'
import { time } from './time/table.ts'
import { transducers } from './transducers/table.ts'
import { tunnels } from './tunnels/table.ts'
import { units } from './units/table.ts'
import { vibratingWire } from './vibrating-wire/table.ts'
import { waterDensity } from './water-density/table.ts'
import { wells } from './wells/table.ts'

/** Every table of values from outside the project. */
export const publishedTables: readonly PublishedTable[] = [
  vibratingWire,
  temperature,
  transducers,
  units,
  airPressure,
  waterDensity,
  hydrostatics,
  extensometers,
  levelling,
  inclinometers,
  tiltAndCracks,
  coordinates,
  alertDelivery,
  alignments,
  holes,
  statistics,
  time,
  levelsAndDistortion,
  oddReadings,
  baselineAndUncertainty,
  barometricEfficiency,
  tunnels,
  settlementInTime,
  wells,
  slopes,
  groundSurfaces,
  radioLinks,
  networkPlan,
  batteries,
  signingIn,
  comparisons,
]
