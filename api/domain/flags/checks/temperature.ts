import type { Check } from '../check.ts'

/** The temperature that the reading is corrected with: one that cannot be makes the correction doubtful. */
export const temperature: Check = {
  measured: ({ temperatureDegC }) => temperatureDegC,
  measuredSql: 'temperature_value',
  unit: 'Cel',
  says: 'the temperature that goes with it is',
  looksBelow: true,
  greatestLimit: null,
}
