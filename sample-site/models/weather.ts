import { openRandomStream } from '../random.ts'
import { dayMs, hourMs, programme, quarterMs } from './programme.ts'

/** Weather at the site every quarter of an hour from the start of the readings, and one day before. */
export interface Weather {
  airDegC(epochMs: number): number
  /** Station pressure. */
  barometerKpa(epochMs: number): number
  /** Rain of the quarter hour that ends then, as tips of 0.2 mm. */
  rainTips(epochMs: number): number
  /** Rain weighed by exp(−age / 3 d). */
  recentRainMillimetres(epochMs: number): number
  /** Metal of a bracket in full sun. */
  sunlitBracketDegC(epochMs: number): number
  /** The same, 1.5 h behind. */
  laggedBracketDegC(epochMs: number): number
  /** Metal or masonry in shade, 1.5 h behind the air. */
  shadedDegC(epochMs: number): number
  /** Steel of the struts: sunlit, 2 h behind. */
  steelDegC(epochMs: number): number
}

const from = programme.startsAt - dayMs
const count = Math.round((programme.endsAt - from) / quarterMs) + 8
const tipMillimetres = 0.2

export const dayOfYear = (epochMs: number) => (epochMs - Date.UTC(2027, 0, 1)) / dayMs + 1

/** Makes the weather of the whole time. Models: see README.md, Drivers. */
export function createWeather(): Weather {
  const air = makeAir()
  const barometer = makeBarometer()
  const rain = makeRain()
  const cloud = makeCloud()
  const bracket = sunlit(air, cloud, 18)
  const bracketLagged = lagged(bracket, 1.5)
  const shaded = lagged(air, 1.5)
  const steel = lagged(sunlit(air, cloud, 6), 2)
  return {
    airDegC: reader(air),
    barometerKpa: reader(barometer),
    rainTips: (epochMs) => rain.tips[Math.round((epochMs - from) / quarterMs)] ?? 0,
    recentRainMillimetres: reader(rain.recent),
    sunlitBracketDegC: reader(bracket),
    laggedBracketDegC: reader(bracketLagged),
    shadedDegC: reader(shaded),
    steelDegC: reader(steel),
  }
}

/** Linear between quarter hours. */
function reader(series: Float64Array): (epochMs: number) => number {
  return (epochMs) => {
    const place = (epochMs - from) / quarterMs
    const index = Math.max(0, Math.min(series.length - 2, Math.floor(place)))
    const before = series[index] as number
    return before + (place - index) * ((series[index + 1] as number) - before)
  }
}

/** Hourly first-order autoregression, linear between the hours. */
function wander(name: string, persistence: number, innovation: number): Float64Array {
  const random = openRandomStream(name)
  const series = new Float64Array(count)
  let now = 0
  let next = 0
  for (let i = 0; i < count; i++) {
    if (i % 4 === 0) {
      now = next
      next = persistence * next + innovation * random.normal()
    }
    series[i] = now + ((next - now) * (i % 4)) / 4
  }
  return series
}

function makeAir(): Float64Array {
  const series = wander('air', 0.985, 0.42)
  for (let i = 0; i < count; i++) {
    const day = dayOfYear(from + i * quarterMs)
    const hour = (day % 1) * 24
    const year = (2 * Math.PI) / 365
    const daily = 3.2 + 1.8 * Math.sin(year * (day - 80))
    series[i] =
      (series[i] as number) +
      13.5 -
      6 * Math.cos(year * (day - 25)) +
      daily * Math.sin((2 * Math.PI * (hour - 9)) / 24)
  }
  return series
}

function makeBarometer(): Float64Array {
  const series = wander('barometer', 0.992, 0.115)
  const { frontFrom, frontUntil } = programme
  for (let i = 0; i < count; i++) {
    const epochMs = from + i * quarterMs
    const tide = 0.08 * Math.cos((2 * Math.PI * (epochMs - 10 * hourMs)) / (12 * hourMs))
    const share = (epochMs - frontFrom) / (frontUntil - frontFrom)
    const front = share > 0 && share < 1 ? 1.5 * (1 - Math.cos(2 * Math.PI * share)) : 0
    series[i] = (series[i] as number) + 101.3 + tide - front
  }
  return series
}

/** Two-state Markov chain by the hour with gamma amounts; the storm of 12 August is set to 62 mm. */
function makeRain(): { tips: Float64Array; recent: Float64Array } {
  const random = openRandomStream('rain')
  const tips = new Float64Array(count)
  const recent = new Float64Array(count)
  const stormQuarters = (programme.stormUntil - programme.stormFrom) / quarterMs
  const keep = Math.exp(-quarterMs / (3 * dayMs))
  let wet = false
  let hourly = 0
  let inBucket = 0
  let remembered = 0
  let stormed = 0
  for (let i = 0; i < count; i++) {
    if (i % 4 === 0) {
      wet = random.uniform() < (wet ? 0.72 : 0.025)
      // Gamma of shape 1/2 and mean 0.9 mm/h is 0.9 times a squared normal deviate.
      const deviate = random.normal()
      hourly = wet ? 0.9 * deviate * deviate : 0
    }
    const epochMs = from + i * quarterMs
    if (epochMs > programme.stormFrom && epochMs <= programme.stormUntil) {
      const share = (epochMs - programme.stormFrom) / quarterMs / stormQuarters
      const fallen = Math.round(
        (62 / tipMillimetres) * (share - Math.sin(2 * Math.PI * share) / (2 * Math.PI)),
      )
      tips[i] = fallen - stormed
      stormed = fallen
    } else {
      inBucket += hourly / 4
      tips[i] = Math.floor(inBucket / tipMillimetres)
      inBucket -= (tips[i] as number) * tipMillimetres
    }
    remembered = remembered * keep + (tips[i] as number) * tipMillimetres
    recent[i] = remembered
  }
  return { tips, recent }
}

/** Share of the sky by the day: Beta(2, 2), which is the middle one of three uniform deviates. */
function makeCloud(): Float64Array {
  const random = openRandomStream('cloud 7')
  return Float64Array.from({ length: Math.ceil(count / 96) + 1 }, () => {
    const [, middle] = [random.uniform(), random.uniform(), random.uniform()].sort((a, b) => a - b)
    return middle as number
  })
}

function sunlit(air: Float64Array, cloud: Float64Array, riseKelvin: number): Float64Array {
  return air.map((degC, i) => {
    const hour = (i % 96) / 4
    if (hour <= 7 || hour >= 20) return degC
    const clear = 1 - 0.8 * (cloud[Math.floor(i / 96)] as number)
    return degC + riseKelvin * clear * Math.sin((Math.PI * (hour - 7)) / 13)
  })
}

/** First-order lag. */
function lagged(series: Float64Array, lagHours: number): Float64Array {
  const share = 1 - Math.exp(-quarterMs / (lagHours * hourMs))
  let state = series[0] as number
  return series.map((value) => {
    state += share * (value - state)
    return state
  })
}
