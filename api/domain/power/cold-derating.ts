import { accept, type Outcome, reject } from '../outcome.ts'

/** Share of its capacity at 20 °C that a primary lithium cell still gives. */
const shares: readonly (readonly [degC: number, share: number])[] = [
  [-40, 0.45],
  [-20, 0.7],
  [0, 0.88],
  [20, 1],
  [40, 0.97],
  [60, 0.9],
]

export const deratingSource =
  'Common practice, no published source: shares for primary lithium cells at small currents. The curve of the cell in use holds; take the temperature of the coldest month.'

/** Share of capacity at a temperature, straight between the stated ones; refused outside −40 to 60 °C. */
export function capacityShareAt(temperatureDegC: number): Outcome<number> {
  const above = shares.findIndex(([degC]) => degC >= temperatureDegC)
  const high = shares[above]
  const low = shares[above - 1] ?? high
  if (!high || !low || temperatureDegC < (shares[0] as readonly [number, number])[0])
    return reject({
      code: 'temperature-out-of-range',
      message: `No share of capacity is stated for ${temperatureDegC} °C: give −40 to 60 °C.`,
      value: String(temperatureDegC),
      expected: '−40 to 60 °C',
    })
  const [lowDegC, lowShare] = low
  const [highDegC, highShare] = high
  const along = highDegC === lowDegC ? 0 : (temperatureDegC - lowDegC) / (highDegC - lowDegC)
  return accept(lowShare + along * (highShare - lowShare))
}
