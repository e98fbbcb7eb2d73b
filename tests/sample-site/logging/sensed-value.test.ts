import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parseRows, readRecords } from '../../../sample-site/logging/read-records.ts'
import { senseBy } from '../../../sample-site/logging/sensed-value.ts'
import { leakMillimetres, leakPressureKpa } from '../../../sample-site/models/leak.ts'
import { dayMs, hourMs, programme } from '../../../sample-site/models/programme.ts'
import { createWeather } from '../../../sample-site/models/weather.ts'
import { sampleFolder } from '../read-sample-site.ts'

const records = readRecords(sampleFolder)
const weather = createWeather()
const sense = senseBy(records, weather)
const truth = parseRows(readFileSync(`${sampleFolder}truth/anomalies.csv`, 'utf8'))
const sizeOf = (series: string) => Number(truth.find((row) => row.series === series)?.size)

function hourly(series: string, from: number, until: number): number[] {
  const at = sense(series)
  return Array.from({ length: Math.round((until - from) / hourMs) }, (_, i) => at(from + i * hourMs))
}
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

function slopeAgainst(
  values: readonly number[],
  drivers: readonly number[],
): { slope: number; correlation: number } {
  const [y, x] = [mean(values), mean(drivers)]
  let [xy, xx, yy] = [0, 0, 0]
  values.forEach((value, i) => {
    const driver = (drivers[i] as number) - x
    xy += driver * (value - y)
    xx += driver * driver
    yy += (value - y) ** 2
  })
  return { slope: xy / xx, correlation: xy / Math.sqrt(xx * yy) }
}

describe('planted anomalies', () => {
  it('1: PZ-05C drifts away from PZ-06C at the stated rate', () => {
    const from = programme.driftFrom + 30 * dayMs
    const [drifting, sound] = ['PZ-05C/pore-pressure', 'PZ-06C/pore-pressure'].map((series) =>
      hourly(series, from, from + 21 * dayMs),
    ) as [number[], number[]]
    const days = drifting.map((_, i) => i / 24)
    const { slope } = slopeAgainst(
      drifting.map((value, i) => value - (sound[i] as number)),
      days,
    )
    expect(slope).toBeCloseTo(sizeOf('PZ-05C/pore-pressure'), 2)
  })

  it('1: its week mean first passes 121.6 kPa on 8 July, two days before stage 3', () => {
    const pressures = hourly('PZ-05C/pore-pressure', programme.pumpingFrom, programme.stage3.from)
    const first = pressures.findIndex((_, i) => i >= 168 && mean(pressures.slice(i - 168, i)) <= 121.6)
    expect(new Date(programme.pumpingFrom + first * hourMs).toISOString().slice(0, 10)).toMatch(
      /2027-07-0[78]/,
    )
    // What the ground does: without the drift the week before stage 3 stays two kilopascals above the target.
    const drift = 0.06 * ((programme.stage3.from - programme.driftFrom) / dayMs - 3.5)
    expect(mean(pressures.slice(-168)) + drift).toBeCloseTo(123.6, 0)
  })

  it('2: the drain leak settles three marks, leans a wall and raises one tip as stated', () => {
    const settled = (point: string) => {
      const place = records.placeOfPoint.get(point)
      return leakMillimetres(place?.eastingMetres ?? 0, place?.northingMetres ?? 0, programme.endsAt)
    }
    for (const point of ['SP-30', 'SP-31', 'SP-32'])
      expect(settled(point), point).toBeCloseTo(sizeOf(`${point}/settlement`), 1)
    const wall = records.placeOfPoint.get('TL-07')
    const north = (metres: number) =>
      leakMillimetres(wall?.eastingMetres ?? 0, (wall?.northingMetres ?? 0) + metres, programme.endsAt)
    const lean = Math.atan((north(-0.1) - north(0.1)) / 200) * (180 / Math.PI)
    expect(lean).toBeCloseTo(sizeOf('TL-07/tilt'), 3)
    const highest = Math.max(
      ...Array.from({ length: 100 }, (_, i) => leakPressureKpa(programme.leakFrom + i * dayMs)),
    )
    expect(highest).toBeCloseTo(sizeOf('PZ-04A/pore-pressure'), 1)
    expect(leakPressureKpa(programme.endsAt)).toBeLessThan(0.1)
  })

  it('2: CR-05 opens by the stated size beside its yearly wave', () => {
    const opened = mean(
      hourly('CR-05/opening', programme.leakFrom + 60 * dayMs, programme.leakFrom + 62 * dayMs),
    )
    const before = mean(hourly('CR-05/opening', programme.leakFrom - 2 * dayMs, programme.leakFrom))
    expect(opened - before).toBeCloseTo(sizeOf('CR-05/opening'), 0)
    expect(opened - before).toBeGreaterThan(0.8)
  })

  it('4: TL-11 passes 1 in 1000 on 26 of 60 days, follows the lagged bracket and not the air', () => {
    const from = Date.UTC(2027, 5, 22)
    const tilt = hourly('TL-11/tilt', from, from + 60 * dayMs)
    const daily = Array.from({ length: 60 }, (_, day) => Math.max(...tilt.slice(24 * day, 24 * day + 24)))
    expect(daily.filter((highest) => highest > 0.057)).toHaveLength(26)
    expect(Math.max(...daily)).toBeGreaterThan(0.09)
    expect(Math.max(...daily)).toBeLessThan(0.115)
    const at = tilt.map((_, i) => from + i * hourMs)
    const bracket = slopeAgainst(tilt, at.map(weather.laggedBracketDegC))
    expect(bracket.slope).toBeCloseTo(sizeOf('TL-11/tilt'), 3)
    expect(bracket.correlation).toBeGreaterThan(0.995)
    expect(slopeAgainst(tilt, at.map(weather.airDegC)).correlation).toBeLessThan(0.94)
  })
})

describe('decoys', () => {
  it('ST-02 passes 2300 kN on some hot afternoons, never 2800 kN, and no other strut does', () => {
    const highest = (strut: string, until: number) => {
      const gauges = [1, 2, 3, 4].map((gauge) =>
        hourly(`${strut}-${gauge}/force`, Date.UTC(2027, 5, 17), until),
      )
      return Math.max(...(gauges[0] ?? []).map((_, i) => mean(gauges.map((gauge) => gauge[i] as number))))
    }
    const upper = Date.UTC(2027, 9, 14)
    expect(highest('ST-02', upper)).toBeGreaterThan(2300)
    expect(highest('ST-02', upper)).toBeLessThan(2400)
    for (const strut of ['ST-01', 'ST-03', 'ST-04']) expect(highest(strut, upper), strut).toBeLessThan(2300)
    for (const strut of ['ST-05', 'ST-06', 'ST-07', 'ST-08'])
      expect(highest(strut, Date.UTC(2027, 8, 14)), strut).toBeLessThan(2300)
  })

  it('SP-40 steps by 6 mm between two surveys while the mark beside it stays', () => {
    const step = (series: string) => {
      const many = sense(series)
      const level = (at: number) => mean(Array.from({ length: 400 }, () => many(at)))
      return level(programme.barrierHitAt + hourMs) - level(programme.barrierHitAt - hourMs)
    }
    expect(step('SP-40/settlement')).toBeCloseTo(6, 0)
    expect(Math.abs(step('SP-41/settlement'))).toBeLessThan(0.3)
  })

  it('the front of 12 September is 3 kPa deep in the barometer', () => {
    const { frontFrom, frontUntil } = programme
    const lowest = weather.barometerKpa((frontFrom + frontUntil) / 2)
    const ends = (weather.barometerKpa(frontFrom) + weather.barometerKpa(frontUntil)) / 2
    expect(lowest - ends).toBeCloseTo(-3, 0)
  })

  it('LG-22 ends below 3 V, LG-21 beside it does not', () => {
    expect(sense('LG-22/battery-voltage')(programme.endsAt)).toBeLessThan(3)
    expect(sense('LG-21/battery-voltage')(programme.endsAt)).toBeGreaterThan(3.4)
  })
})

describe('storm', () => {
  it('brings 62 mm in 24 hours', () => {
    let tips = 0
    for (let at = programme.stormFrom + hourMs / 4; at <= programme.stormUntil; at += hourMs / 4)
      tips += weather.rainTips(at)
    expect(tips * 0.2).toBeCloseTo(62, 9)
  })
})
