import {
  choice,
  choiceOrNothing,
  flag,
  instantOrNothing,
  maybeAbsent,
  number,
  numberOrNothing,
  type RowOf,
  text,
  textOrNothing,
} from './column.ts'
import { worksKinds } from './vocabulary.ts'

/** Fields of `site.csv` (headings `field,value`), one row each. */
export const siteFields = {
  id: text('short name of the site, used in addresses'),
  name: text('name of the site'),
  invented: flag('whether this is made-up data'),
  watermark: textOrNothing('words shown on every screen; needed for made-up data'),
  crs: text(
    'site grid: EPSG code such as EPSG:32630, or a PROJ string; with control-points.csv, what that ties the own grid to',
  ),
  localGridScale: choiceOrNothing('whether control points also fit a scale; empty means fitted', [
    'fitted',
    'one',
  ]),
  controlToleranceMetres: numberOrNothing('largest residual of a control point; empty means 0.02', {
    min: 0,
    max: 1,
  }),
  verticalDatum: text('what levels are measured from'),
  timeZone: text('IANA name of the zone in which people on the works read the time'),
  presentAt: instantOrNothing('instant that stands for the present; only for made-up data'),
  levelNames: text('names of levels 1, 2, 3 …, separated by semicolons'),
  groundLevelMetres: number('level of the ground before the works, where no hole says otherwise'),
  waterUnitWeightKnPerM3: maybeAbsent(
    numberOrNothing(
      'unit weight of the water in the ground, kN/m³; 9.81 where nothing is said of the water',
      {
        min: 9.5,
        max: 12,
      },
    ),
  ),
  waterTemperatureDegC: maybeAbsent(
    numberOrNothing('temperature of the water in the ground, from which its unit weight is computed', {
      min: -2,
      max: 100,
    }),
  ),
  waterSalinity: maybeAbsent(
    numberOrNothing('practical salinity of that water, 0 fresh, 35 the sea', { min: 0, max: 42 }),
  ),
  latitudeDegrees: maybeAbsent(
    numberOrNothing('latitude, for gravity; 9.80665 m/s² where it is not given', { min: -90, max: 90 }),
  ),
  drillDayOfMonth: maybeAbsent(
    numberOrNothing('day of each month on which telling people is practised; empty: no drill is planned', {
      min: 1,
      max: 28,
      whole: true,
    }),
  ),
  drillTime: maybeAbsent(textOrNothing('time of day of the drill in the zone of the site, 10:00')),
  drillDuty: maybeAbsent(textOrNothing('duty that is told in the drill, as in duty-shifts.csv')),
} as const
export type SiteFields = RowOf<typeof siteFields>

/** Properties of each feature of `works.geojson`; geometry is WGS 84 longitude, latitude (RFC 7946). */
export const worksFields = {
  id: text('name, used once'),
  kind: choice('what it is', worksKinds),
  name: text('what people call it'),
  barrier: flag('whether the ground on its two sides moves apart (true or false)'),
  fromAt: instantOrNothing('first instant that it exists; null where it was always there'),
  untilAt: instantOrNothing('first instant that it no longer exists; null while it stands'),
  topLevelMetres: numberOrNothing('level of its top'),
  baseLevelMetres: numberOrNothing('level of its base'),
} as const
export type WorksFields = RowOf<typeof worksFields>
