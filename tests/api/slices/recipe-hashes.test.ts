import { beforeAll, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { type Recipe, readRecipe } from '../../../api/slices/recipe.ts'
import { recipeOfInstrument } from '../../../api/slices/recipe-of-instrument.ts'
import { createSeriesNeeds } from '../../../api/slices/series-needs.ts'
import type { Store } from '../../../api/store/store.ts'
import { smallSite } from '../../domain/site/small-site.ts'

/** Everything that goes into the hashes, written here so that no other test changes it; invented. */
const files = {
  'points.csv': [
    'id,instrument,depthMetres,gaugeLengthMetres,intakeTopLevelMetres,intakeBaseLevelMetres,stratum,retiredAt,replaces',
    'PZ-1A,PZ-1,5.6,,-0.5,-1.5,soft clay,,',
    'ST-1A,ST-1,0,,,,,,',
    'BA-1,BA-1,0,,,,,,',
  ],
  'sensors.csv': [
    'id,point,measure,serial,rawUnit,unit,rangeLow,rangeHigh,decimals,temperatureSensor,barometerSensor,intervalMinutes,lateAfterMinutes',
    'PZ-1A/pore-pressure,PZ-1A,pore-pressure,7001,us,kPa,-50,350,2,PZ-1A/temperature,BA-1/barometric-pressure,60,180',
    'PZ-1A/temperature,PZ-1A,temperature,7001,ohm,degC,,,2,,,60,180',
    'BA-1/barometric-pressure,BA-1,barometric-pressure,,mA,kPa,,,3,,,60,180',
    'ST-1A/force,ST-1A,force,,Hz,kN,,,1,,,15,120',
  ],
  'wiring.csv': [
    'logger,channel,sensor,fromAt,untilAt,reason',
    'LG-1,1,PZ-1A/pore-pressure,2027-02-01T00:00:00Z,2027-03-01T00:00:00Z,installed',
    'LG-1,2,PZ-1A/temperature,2027-02-01T00:00:00Z,,installed',
    'LG-1,3,PZ-1A/pore-pressure,2027-03-01T00:00:00Z,,moved to channel 3',
    'LG-1,4,BA-1/barometric-pressure,2027-02-01T00:00:00Z,,installed',
  ],
  'calibrations.csv': [
    'id,sensor,version,validFrom,certificate,calibratedAt,dueAt,standardUncertainty,author,reason',
    'CC-1/1,PZ-1A/pore-pressure,1,2027-01-01T00:00:00Z,C-77,,,0.3,A. Reed,as delivered',
    'CC-1/2,PZ-1A/pore-pressure,2,2027-02-20T00:00:00Z,C-77,,,0.3,A. Reed,air taken off',
  ],
  'calibration-steps.csv': [
    'calibration,step,kind,parameters',
    'CC-1/1,1,linear,factor=-0.1;offset=800;unit=kPa',
    'CC-1/2,1,linear,factor=-0.1;offset=800;unit=kPa',
    'CC-1/2,2,thermal,factor=0.05;reference=12;maximumAgeMinutes=60',
    'CC-1/2,3,barometric,reference=101.12;maximumAgeMinutes=90',
  ],
  'check-limits.csv': [
    'id,series,measure,check,suspectBelow,suspectAbove,failBelow,failAbove,against,reason,author,validFrom',
    'CL-01,,pore-pressure,spike,,3,,10,,three times the first week,A. Reed,2027-02-08T00:00:00Z',
  ],
}
const [from, until] = [Date.UTC(2027, 1, 1), Date.UTC(2027, 3, 1)]
const numbers = {
  seriesNumbers: async (_: string, ids: readonly string[]) => ids.map((_, at) => at + 1),
  channelNumbers: async (_: string, wires: readonly unknown[]) => wires.map((_, at) => at + 1),
} as unknown as Store

let model: SiteModel
let recipe: Recipe
beforeAll(async () => {
  const texts = Object.entries(files).map(([name, lines]) => [name, `${lines.join('\n')}\n`] as const)
  const read = readSite(new Map([...smallSite(), ...texts]))
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  model = read.value
  recipe = await readRecipe(numbers, 'small-quay', model)
})

// Each was had from the program as it stood before barometers had dates: whoever has to write another here takes
// back every approval of every site, and publishes every month anew.
test('what is written with an approval comes out as it did before barometers had dates', () => {
  const { links } = recipe
  expect(links.some(({ barometerSeries }) => barometerSeries !== null)).toBe(true)
  expect(links.some(({ temperatureSeries }) => temperatureSeries !== null)).toBe(true)
  expect(recipeOfInstrument(model, recipe)('PZ-1', from, until)).toBe('RV-Ax_yrL3RAleRFEONCYF')
})

test('so does what months are published by, and what levels are kept evaluated by', () => {
  expect(recipe.hashOf(from, until)).toBe('2c1d735f8b003bcb65c57f11ebc16c6603a444ac849fac96069fc064cbb907e9')
  expect(createSeriesNeeds(recipe).hashOf(recipe.numberOf.get('PZ-1A/pore-pressure') as number)).toBe(
    'Nobmh-Ek3FnzxTyB9W_hHp5t2rATtC8wxDhalYuvh3E',
  )
})
